import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'kitproof-vsix-'));
const vsix = join(folder, 'kitproof.vsix');
const MOST_BYTES = 3 * 1024 * 1024;

describe('the extension as it is packed', () => {
  let files: Map<string, string>;
  let manifest: Manifest;

  beforeAll(() => {
    const script = `import { packageExtension } from './server/scripts/package.mjs'; await packageExtension(${JSON.stringify(vsix)});`;
    execFileSync(process.execPath, ['--input-type=module', '-e', script], { cwd: root });
    files = entriesOf(readFileSync(vsix));
    manifest = JSON.parse(files.get('extension/package.json')!);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is small, and holds what it needs and nothing else', () => {
    expect(statSync(vsix).size).toBeLessThan(MOST_BYTES);
    expect([...files.keys()].sort()).toEqual([
      '[Content_Types].xml',
      'extension.vsixmanifest',
      'extension/client/images/document-dark.svg',
      'extension/client/images/document-light.svg',
      'extension/client/images/icon.png',
      'extension/client/images/preview-dark.svg',
      'extension/client/images/preview-light.svg',
      'extension/client/images/side-bar.svg',
      'extension/client/language/kitproof.tmLanguage.json',
      'extension/client/language/language-configuration.json',
      'extension/client/walkthrough/findings.md',
      'extension/client/walkthrough/guide.md',
      'extension/client/walkthrough/preview.md',
      'extension/client/walkthrough/vehicle.md',
      'extension/dist/cli.js',
      'extension/dist/extension.cjs',
      'extension/dist/package.json',
      'extension/dist/packs.js',
      'extension/dist/preview-style.css',
      'extension/dist/preview.js',
      'extension/dist/web/extension.js',
      'extension/dist/web/server.js',
      'extension/package.json',
      'extension/readme.md',
      'extension/schemas/house-rules.md',
      'extension/schemas/rules.md',
      'extension/schemas/semantics.md',
      'extension/schemas/words.md',
    ]);
  });

  it('leads only to files that it holds', () => {
    const { contributes, main, browser, icon } = manifest;
    const [language] = contributes.languages;
    const paths = [
      main,
      browser,
      icon,
      language!.configuration,
      ...Object.values(language!.icon),
      ...contributes.grammars.map(({ path }) => path),
      ...contributes.viewsContainers.activitybar.map(({ icon: own }) => own),
      ...contributes.walkthroughs.flatMap(({ steps }) => steps.map(({ media }) => media.markdown)),
      ...contributes.commands.flatMap(({ icon: own }) => Object.values(own ?? {})),
    ];
    for (const path of paths) expect(files.has(`extension/${path.replace('./', '')}`), path).toBe(true);
    expect(files.get('extension/readme.md')).not.toMatch(/\]\((?!https:)/);
  });

  it('is started in a browser as well as on a machine', () => {
    expect(manifest.browser).toMatch(/\.js$/);
    // Of a package of modules an editor in a browser starts nothing.
    expect(manifest.type).toBeUndefined();
    expect(JSON.parse(files.get('extension/dist/package.json')!)).toEqual({ type: 'module' });
    expect(manifest.capabilities.virtualWorkspaces.supported).toBe(true);
    expect(files.get('extension/dist/web/extension.js')).not.toMatch(/require\("(?!vscode")/);
  });

  it('has a command for each that it registers, and a description for each setting', () => {
    const code = readFileSync(join(root, 'client/extension.ts'), 'utf8');
    const registered = [...code.matchAll(/command\('(\w+)'/g)].map((match) => `kitproof.${match[1]}`);
    expect(registered.length).toBeGreaterThan(2);
    expect(manifest.contributes.commands.map(({ command }) => command).sort()).toEqual(registered.sort());
    for (const [name, { description }] of Object.entries(manifest.contributes.configuration.properties))
      expect(description?.length, name).toBeGreaterThan(30);
  });

  it('claims the endings and the first line of our documents, and starts on them', () => {
    const [language] = manifest.contributes.languages;
    for (const kind of ['vehicle', 'kit', 'install', 'rules', 'times']) {
      expect(language!.extensions).toContain(`.${kind}.yaml`);
      expect(manifest.activationEvents).toContain(`workspaceContains:**/*.${kind}.yaml`);
    }
    expect(manifest.activationEvents).toContain('onLanguage:kitproof');
    expect('kitproof: install/1').toMatch(new RegExp(language!.firstLine));
  });

  it('works in a workspace that is not trusted, and knows no address to call', () => {
    expect(manifest.capabilities.untrustedWorkspaces.supported).toBe(true);
    for (const name of ['extension.cjs', 'cli.js', 'preview.js', 'web/extension.js', 'web/server.js']) {
      const code = files.get(`extension/dist/${name}`)!;
      expect(code.length, name).toBeGreaterThan(1000);
      expect(code, name).not.toMatch(
        /\bfetch\(|XMLHttpRequest|require\("(?:node:)?https?"\)|from ?"(?:node:)?https?"/,
      );
    }
  });
});

interface Manifest {
  readonly main: string;
  readonly browser: string;
  readonly type?: unknown;
  readonly icon: string;
  readonly activationEvents: readonly string[];
  readonly capabilities: Readonly<
    Record<'untrustedWorkspaces' | 'virtualWorkspaces', { readonly supported: unknown }>
  >;
  readonly contributes: {
    readonly languages: readonly {
      readonly extensions: readonly string[];
      readonly firstLine: string;
      readonly configuration: string;
      readonly icon: Readonly<Record<string, string>>;
    }[];
    readonly grammars: readonly { readonly path: string }[];
    readonly commands: readonly {
      readonly command: string;
      readonly icon?: Readonly<Record<string, string>>;
    }[];
    readonly viewsContainers: { readonly activitybar: readonly { readonly icon: string }[] };
    readonly walkthroughs: readonly {
      readonly steps: readonly { readonly media: { readonly markdown: string } }[];
    }[];
    readonly configuration: {
      readonly properties: Readonly<Record<string, { readonly description?: string }>>;
    };
  };
}

/** The files of a ZIP, by its central directory: names and, where they are text, what they say. */
function entriesOf(zip: Buffer): Map<string, string> {
  const end = zip.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  const entries = new Map<string, string>();
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left--) {
    const [nameLength, extraLength, commentLength] = [28, 30, 32].map((offset) =>
      zip.readUInt16LE(at + offset),
    );
    const name = zip.toString('utf8', at + 46, at + 46 + nameLength!);
    const local = zip.readUInt32LE(at + 42);
    const start = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const data = zip.subarray(start, start + zip.readUInt32LE(at + 20));
    entries.set(name, (zip.readUInt16LE(at + 10) === 0 ? data : inflateRawSync(data)).toString('utf8'));
    at += 46 + nameLength! + extraLength! + commentLength!;
  }
  return entries;
}
