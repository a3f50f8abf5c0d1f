/** `npm run bench`: bundles `test/bench/run.ts` and runs it from the repository's root. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { build } from 'esbuild';
import { install, needNode, root, tool } from './house.mjs';

needNode();
install();
const { generate } = await import('./generate.mjs');
await generate();
mkdirSync(join(root, 'dist'), { recursive: true });
const folder = mkdtempSync(join(root, 'dist', 'bench-'));
try {
  const outfile = join(folder, 'run.mjs');
  await build({
    absWorkingDir: root,
    entryPoints: ['test/bench/run.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    loader: { '.yaml': 'text' },
    banner: {
      js: "import { createRequire as requireOf } from 'node:module';\nconst require = requireOf(import.meta.url);",
    },
    logLevel: 'warning',
  });
  process.exitCode = tool(relative(root, outfile), []);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
