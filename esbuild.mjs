/** Bundles the program: `node esbuild.mjs` makes `dist/`. Tests call `bundle` with a folder of their own. */
import { chmodSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = dirname(fileURLToPath(import.meta.url));

/** Bundles the command line into `cli.js` of a folder, `dist` unless told otherwise, and gives its path. */
export async function bundle(folder = join(root, 'dist')) {
  const outfile = join(folder, 'cli.js');
  await build({
    absWorkingDir: root,
    entryPoints: ['server/src/cli/entry.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    mainFields: ['module', 'main'],
    // The form of `yaml` that is made of modules: smaller, and quicker to start. An editor in a browser runs the same.
    alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
    // Packs and what `init` writes are documents: carried as text, read like any other.
    loader: { '.yaml': 'text' },
    // Some packages in the bundle still call `require` for what the platform has.
    banner: {
      js: "#!/usr/bin/env node\nimport { createRequire as requireOf } from 'node:module';\nconst require = requireOf(import.meta.url);",
    },
    minifySyntax: true,
    minifyWhitespace: true,
    // Names are kept, so that a fault's trace can be read.
    minifyIdentifiers: false,
    legalComments: 'none',
    charset: 'utf8',
    logLevel: 'warning',
  });
  chmodSync(outfile, 0o755);
  return outfile;
}

if (process.argv[1] && fileURLToPath(import.meta.url) === process.argv[1]) {
  await bundle();
  console.log('Bundled dist/cli.js.');
}
