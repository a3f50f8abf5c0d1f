/** Bundles a program of `test/` and runs it from the repository's root. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { build } from 'esbuild';
import { root, tool } from './house.mjs';

/** Gives the exit status. */
export async function runBundled(entry, words) {
  mkdirSync(join(root, 'dist'), { recursive: true });
  const folder = mkdtempSync(join(root, 'dist', 'run-'));
  try {
    const outfile = join(folder, 'run.mjs');
    await build({
      absWorkingDir: root,
      entryPoints: [entry],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      // It looks for its own files beside itself.
      external: ['playwright-core'],
      loader: { '.yaml': 'text' },
      banner: {
        js: "import { createRequire as requireOf } from 'node:module';\nconst require = requireOf(import.meta.url);",
      },
      logLevel: 'warning',
    });
    return tool(relative(root, outfile), words);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
