/** Bundles the program and the extension: `node esbuild.mjs` makes `dist/`. Tests call `bundle` with a folder of their own. */
import { chmodSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = dirname(fileURLToPath(import.meta.url));

/** The form of `yaml` that is made of modules: smaller, and quicker to start. A process and a worker run the same. */
const modularYaml = join(root, 'node_modules/yaml/browser/index.js');

/**
 * A rule pack as it is carried: its examples, three quarters of the text, are for tests and for people who read the pack, so
 * a check does not read them. Their lines stay empty, so that every line keeps its number.
 */
export function withoutExamples(text) {
  let inside = false;
  return text
    .split('\n')
    .map((line) => {
      const indent = line.length - line.trimStart().length;
      if (line.trim() !== '' && indent <= 4) inside = /^ {4}(good|bad):/.test(line);
      return inside ? '' : line;
    })
    .join('\n');
}

/** @type {import('esbuild').Plugin} */
const leanPacks = {
  name: 'lean-packs',
  setup(building) {
    building.onLoad({ filter: /\.rules\.yaml$/ }, ({ path }) => ({
      contents: withoutExamples(readFileSync(path, 'utf8')),
      loader: 'text',
    }));
  },
};

/**
 * The packs with their examples are a file of their own, `packs.js`, that the program imports when it explains or tests
 * rules, and at no other time.
 * @type {import('esbuild').Plugin}
 */
const wholePacksBeside = {
  name: 'whole-packs-beside',
  setup(building) {
    building.onResolve({ filter: /^\.\/pack-texts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './packs.js', external: true } : undefined,
    );
  },
};

/** Bundles the command line into `cli.js` and `packs.js` of a folder, `dist` unless told otherwise; gives the path of the first. */
export async function bundle(folder = join(root, 'dist')) {
  const outfile = join(folder, 'cli.js');
  /** @type {import('esbuild').BuildOptions} */
  const shared = {
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    // Packs and what `init` writes are documents: carried as text, read like any other.
    loader: { '.yaml': 'text' },
    charset: 'utf8',
    logLevel: 'warning',
  };
  await build({
    ...shared,
    entryPoints: ['server/src/workspace/pack-texts.ts'],
    outfile: join(folder, 'packs.js'),
  });
  await build({
    ...shared,
    entryPoints: ['server/src/cli/entry.ts'],
    outfile,
    mainFields: ['module', 'main'],
    alias: { yaml: modularYaml },
    plugins: [leanPacks, wholePacksBeside],
    // Some packages in the bundle still call `require` for what the platform has.
    banner: {
      js: "#!/usr/bin/env node\nimport { createRequire as requireOf } from 'node:module';\nconst require = requireOf(import.meta.url);",
    },
    minifySyntax: true,
    minifyWhitespace: true,
    // Names are kept, so that a fault's trace can be read.
    minifyIdentifiers: false,
    legalComments: 'none',
  });
  chmodSync(outfile, 0o755);
  return outfile;
}

/**
 * Bundles the extension into a folder: `extension.cjs`, which starts `cli.js` as its server; `web/`, the same for an editor in
 * a browser, with the server as a worker; and the preview's page.
 */
export async function bundleExtension(folder = join(root, 'dist')) {
  const shared = {
    absWorkingDir: root,
    bundle: true,
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'none',
    charset: 'utf8',
    logLevel: 'warning',
  };
  await Promise.all([
    build({
      ...shared,
      entryPoints: ['client/on-machine.ts'],
      outfile: join(folder, 'extension.cjs'),
      platform: 'node',
      // The package is of modules; the editor asks for its extensions by `require`.
      format: 'cjs',
      target: 'node20',
      external: ['vscode'],
    }),
    build({
      ...shared,
      entryPoints: ['client/in-browser.ts'],
      outfile: join(folder, 'web', 'extension.js'),
      platform: 'browser',
      format: 'cjs',
      target: 'chrome120',
      external: ['vscode'],
    }),
    build({
      ...shared,
      entryPoints: ['server/src/lsp/worker.ts'],
      outfile: join(folder, 'web', 'server.js'),
      platform: 'browser',
      // A worker has no document: of a package that has a form for it, that one.
      conditions: ['worker'],
      format: 'iife',
      target: 'chrome120',
      alias: { yaml: modularYaml },
      loader: { '.yaml': 'text' },
      plugins: [leanPacks],
    }),
    build({
      ...shared,
      entryPoints: {
        preview: 'client/preview/page/main.ts',
        'preview-style': 'client/preview/page/page.css',
      },
      outdir: folder,
      platform: 'browser',
      format: 'iife',
      target: 'chrome120',
    }),
  ]);
}

if (process.argv[1] && fileURLToPath(import.meta.url) === process.argv[1]) {
  await Promise.all([bundle(), bundleExtension()]);
  console.log('Bundled dist/cli.js, dist/extension.cjs and dist/web.');
}
