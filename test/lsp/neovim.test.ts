import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
// @ts-expect-error: a script without types.
import { bundle } from '../../esbuild.mjs';
import { GUIDE, VEHICLE } from './world';

const there = spawnSync('nvim', ['--version'], { stdio: 'ignore' }).status === 0;
// Where editors are promised they must be there; elsewhere a missing one is said.
const promised = (process.env.KITPROOF_EDITORS ?? '') !== '';
if (!there && !promised)
  console.warn('\nTHIS MACHINE LACKS nvim: the server was not tried with that editor.\n');

/** Opens a faulty guide, waits for its findings, asks for a hover, mends the fault, and writes down what it saw. */
const SCRIPT = `
local folder, program, node, out = vim.env.KP_FOLDER, vim.env.KP_PROGRAM, vim.env.KP_NODE, vim.env.KP_OUT
local seen = {}
local pushes = 0
local function write() local file = io.open(out, 'w'); file:write(vim.fn.json_encode(seen)); file:close() end
vim.lsp.handlers['textDocument/publishDiagnostics'] = (function(inner)
  return function(...) pushes = pushes + 1; return inner(...) end
end)(vim.lsp.handlers['textDocument/publishDiagnostics'])
vim.cmd('edit ' .. folder .. '/bracket.install.yaml')
local id = vim.lsp.start_client({ name = 'kitproof', cmd = { node, program, 'server', '--stdio' }, root_dir = folder })
vim.lsp.buf_attach_client(0, id)
local function codes()
  local found = {}
  for _, one in ipairs(vim.diagnostic.get(0)) do table.insert(found, tostring(one.code or one.user_data.lsp.code)) end
  return found
end
seen.came = vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end, 50)
seen.before = codes()
local client = vim.lsp.get_client_by_id(id)
seen.capabilities = client and client.server_capabilities
local answer = vim.lsp.buf_request_sync(0, 'textDocument/hover', {
  textDocument = vim.lsp.util.make_text_document_params(), position = { line = 9, character = 13 } }, 10000)
seen.hover = answer and answer[id] and answer[id].result and answer[id].result.contents.value
local lines = vim.api.nvim_buf_get_lines(0, 0, -1, false)
for index, line in ipairs(lines) do
  if line:find('braket') then vim.api.nvim_buf_set_lines(0, index - 1, index, false, { (line:gsub('braket', 'bracket')) }) end
end
local count = pushes
seen.mended = vim.wait(20000, function() return pushes > count and #vim.diagnostic.get(0) == 0 end, 50)
seen.after = codes()
vim.lsp.stop_client(id)
vim.wait(2000, function() return vim.lsp.get_client_by_id(id) == nil end, 50)
write()
vim.cmd('qa!')
`;

it.runIf(there || promised)(
  'neovim shows the findings and sees them go',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'kitproof-nvim-'));
    try {
      const program: string = await bundle(join(folder, 'bundle'));
      writeFileSync(
        join(folder, 'bracket.install.yaml'),
        GUIDE.replace('bolt-up: bracket', 'bolt-up: braket'),
      );
      writeFileSync(join(folder, 'moorhen.vehicle.yaml'), VEHICLE);
      writeFileSync(join(folder, 't.lua'), SCRIPT);
      const out = join(folder, 'seen.json');
      const ran = spawnSync(
        'nvim',
        ['--headless', '-u', 'NONE', '-i', 'NONE', '-n', '-c', `luafile ${join(folder, 't.lua')}`],
        {
          timeout: 60_000,
          encoding: 'utf8',
          env: {
            ...process.env,
            HOME: folder,
            XDG_STATE_HOME: folder,
            XDG_DATA_HOME: folder,
            XDG_CACHE_HOME: folder,
            KP_FOLDER: folder,
            KP_PROGRAM: program,
            KP_NODE: process.execPath,
            KP_OUT: out,
          },
        },
      );
      expect(ran.error, ran.stderr).toBeUndefined();
      const seen = JSON.parse(readFileSync(out, 'utf8'));
      expect(seen.came, ran.stderr).toBe(true);
      expect(seen.before).toContain('unknown-name');
      // It does not pull, so that findings are pushed to it.
      expect(seen.capabilities.diagnosticProvider).toBeUndefined();
      expect(seen.hover).toContain('loosen');
      expect(seen.mended).toBe(true);
      expect(Object.values(seen.after)).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
  120_000,
);
