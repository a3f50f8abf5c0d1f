/**
 * Makes `schemas/rules.md`, the catalogue of the standard rules, and the table of states in `schemas/house-rules.md`. Run as
 * `node server/scripts/catalogue.mjs`; a test holds both to what `server/src/workspace/catalogue.ts` gives.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { root } from './house.mjs';

const folder = mkdtempSync(join(tmpdir(), 'kitproof-catalogue-'));
try {
  const outfile = join(folder, 'catalogue.mjs');
  await build({
    absWorkingDir: root,
    stdin: {
      contents: "export { standardCatalogue, statesTable } from './server/src/workspace/catalogue';",
      resolveDir: root,
    },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
    loader: { '.yaml': 'text' },
    logLevel: 'warning',
  });
  const { standardCatalogue, statesTable } = await import(pathToFileURL(outfile).href);
  writeFileSync(join(root, 'schemas', 'rules.md'), await standardCatalogue());
  const guide = join(root, 'schemas', 'house-rules.md');
  const [before, after] = readFileSync(guide, 'utf8').split(
    /(?<=<!-- states -->\n)[\s\S]*?(?=\n<!-- end of states -->)/,
  );
  writeFileSync(guide, `${before}${statesTable()}${after}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
