/**
 * `npm run package`: builds the extension and packs it, with no network, into `dist/kitproof-<version>.vsix`. What goes in
 * is listed here, file by file, so that nothing comes along by accident.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundle, bundleExtension } from '../../esbuild.mjs';
import { root } from './house.mjs';

/** From the checkout as it is. */
const FILES = [
  'client/images/document-dark.svg',
  'client/images/document-light.svg',
  'client/images/icon.png',
  'client/images/preview-dark.svg',
  'client/images/preview-light.svg',
  'client/images/side-bar.svg',
  'client/language/kitproof.tmLanguage.json',
  'client/language/language-configuration.json',
  'client/walkthrough/findings.md',
  'client/walkthrough/guide.md',
  'client/walkthrough/preview.md',
  'client/walkthrough/vehicle.md',
  'schemas/house-rules.md',
  'schemas/rules.md',
  'schemas/semantics.md',
  'schemas/words.md',
];

/** What only the checkout and npm need of package.json; `type` stands in `dist/`. */
const DEVELOPMENT = ['private', 'type', 'bin', 'files', 'scripts', 'devDependencies', 'dependencies'];

/** Packs the extension into a file, and gives its path. */
export async function packageExtension(out = null) {
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const target = out ?? join(root, 'dist', `kitproof-${manifest.version}.vsix`);
  const stage = mkdtempSync(join(tmpdir(), 'kitproof-package-'));
  try {
    await Promise.all([bundle(join(stage, 'dist')), bundleExtension(join(stage, 'dist'))]);
    for (const file of FILES) {
      mkdirSync(dirname(join(stage, file)), { recursive: true });
      cpSync(join(root, file), join(stage, file));
    }
    writeFileSync(join(stage, 'README.md'), pageOf(readFileSync(join(root, 'README.md'), 'utf8')));
    for (const key of DEVELOPMENT) delete manifest[key];
    delete manifest.engines.node;
    // Of a package of modules an editor in a browser starts nothing, while Node runs the program as modules only by such a word.
    writeFileSync(join(stage, 'dist', 'package.json'), `${JSON.stringify({ type: 'module' })}\n`);
    writeFileSync(join(stage, 'package.json'), `${JSON.stringify(manifest, null, 2)}\n`);
    mkdirSync(dirname(target), { recursive: true });
    const words = ['package', '--no-dependencies', '--skip-license', '--allow-missing-repository'];
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(root, 'node_modules/@vscode/vsce/vsce'), ...words, '--out', target],
      { cwd: stage, encoding: 'utf8', env: { ...process.env, VSCE_TESTS: '1' } },
    );
    if (status !== 0) throw new Error(`The extension could not be packed.\n${stdout}${stderr}`);
    return target;
  } finally {
    rmSync(stage, { recursive: true, force: true });
  }
}

/** The README as the editor shows it beside the extension: what leads into the checkout leads nowhere there. */
function pageOf(text) {
  return text
    .replaceAll(/^!\[[^\]]*\]\((?!https:)[^)]*\)\n+/gm, '')
    .replaceAll(/\[([^\]]+)\]\((?!https:)[^)]*\)/g, '$1');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const made = await packageExtension();
  console.log(`${made}: ${(statSync(made).size / 1024 / 1024).toFixed(2)} MB`);
}
