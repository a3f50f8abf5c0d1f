import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error: a script without types.
import { bundle } from '../../esbuild.mjs';
import { inProcess } from './client';
import { GUIDE, VEHICLE } from './world';

const LINKING = { textDocument: { publishDiagnostics: { codeDescriptionSupport: true } } };

let folder: string;
let program: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kitproof-server-'));
  program = await bundle(join(folder, 'bundle'));
  writeFileSync(join(folder, 'bracket.install.yaml'), GUIDE.replace('unbolt: bracket', 'unbolt: braket'));
  writeFileSync(join(folder, 'loose.install.yaml'), GUIDE.replace('          - torque: bracket.bolt\n', ''));
  cpSync(join(import.meta.dirname, '../../schemas/rules.md'), join(folder, 'schemas/rules.md'));
  writeFileSync(join(folder, 'moorhen.vehicle.yaml'), VEHICLE);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('is run by the command, over files of the disk, and ends with the editor', async () => {
  const { client, child } = inProcess(program);
  const errors: string[] = [];
  child.stderr!.on('data', (data) => errors.push(String(data)));
  await client.start(LINKING, [pathToFileURL(folder).href]);
  expect(client.initialized.serverInfo?.name).toBe('kitproof');
  const uri = pathToFileURL(join(folder, 'bracket.install.yaml')).href;
  const found = await client.push(uri);
  expect(found.map(({ code }) => code)).toContain('unknown-name');
  // The catalogue of rules stands beside the folder of the program.
  const [loose] = await client.push(pathToFileURL(join(folder, 'loose.install.yaml')).href);
  const catalogue = pathToFileURL(join(folder, 'schemas/rules.md')).href;
  expect(loose!.codeDescription?.href).toMatch(new RegExp(`^${catalogue}#L\\d+$`));
  await client.end();
  expect(child.exitCode).toBe(0);
  expect(errors.join('')).toBe('');
});
