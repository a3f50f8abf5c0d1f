import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const source = join(root, 'server/src');

/** The stations, ground floor first. */
const STATIONS =
  'findings text edit units schema variants model simulate calc rules labour check guide review workspace lsp cli'.split(
    ' ',
  );
/** These touch the machine or the editor; everything before them is pure. */
const OUTER = new Set(['workspace', 'lsp', 'cli']);
interface Import {
  readonly file: string;
  readonly station: string;
  readonly target: string;
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'generated' ? [] : filesBelow(path);
    return entry.name.endsWith('.ts') ? [path] : [];
  });
}

const files = filesBelow(source);
const imports: Import[] = files.flatMap((file) => {
  const text = readFileSync(file, 'utf8');
  const station = relative(source, file).split(/[\\/]/)[0]!;
  const found = [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((match) => match[1]!);
  return found.map((target) => ({ file: relative(source, file), station, target }));
});

/** The station that a relative import leads into, undefined for one within its own and for packages. */
function stationOf(one: Import): string | undefined {
  if (!one.target.startsWith('.')) return undefined;
  const path = relative(source, resolve(source, dirname(one.file), one.target)).split(/[\\/]/);
  return path[0] === one.station ? undefined : path[0];
}

describe('import directions', () => {
  it('finds the stations and their imports at all', () => {
    expect(files.length).toBeGreaterThan(20);
    expect(imports.filter((one) => stationOf(one) !== undefined).length).toBeGreaterThan(20);
    expect(new Set(files.map((file) => relative(source, file).split(/[\\/]/)[0])).size).toBeGreaterThan(8);
  });

  it('lead from a station only to those before it', () => {
    const wrong = imports.filter((one) => {
      const target = stationOf(one);
      if (target === undefined || !STATIONS.includes(one.station)) return false;
      // Out of server/src only package.json is read, by the outermost: the command line, and the worker of a browser.
      const outermost = one.station === 'cli' || one.file.replaceAll('\\', '/') === 'lsp/worker.ts';
      if (!STATIONS.includes(target)) return !(outermost && one.target.endsWith('/package.json'));
      return STATIONS.indexOf(target) > STATIONS.indexOf(one.station);
    });
    expect(wrong).toEqual([]);
  });

  it('keep the machine and the editor out of the pure stations', () => {
    const wrong = imports.filter(
      (one) =>
        (one.target.startsWith('node:') && !OUTER.has(one.station)) ||
        (one.target.startsWith('vscode') && one.station !== 'lsp'),
    );
    expect(wrong).toEqual([]);
    const globals = files.filter((file) => {
      const station = relative(source, file).split(/[\\/]/)[0]!;
      if (OUTER.has(station)) return false;
      const code = readFileSync(file, 'utf8').replaceAll(
        /\/\*[\s\S]*?\*\/|\/\/.*|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g,
        '',
      );
      return /\bprocess\.|\bDate\.now|\bnew Date\(\)|\bperformance\.|\bMath\.random|\bsetTimeout\b|\bconsole\./.test(
        code,
      );
    });
    expect(globals.map((file) => relative(source, file))).toEqual([]);
  });

  it('bring documents in as text in two places only', () => {
    const yaml = imports.filter((one) => one.target.endsWith('.yaml'));
    expect([...new Set(yaml.map((one) => one.file.replaceAll('\\', '/')))].sort()).toEqual([
      'cli/init.ts',
      'workspace/pack-texts.ts',
    ]);
  });

  it('know every standard pack', () => {
    const known = imports.filter(
      (one) => one.file.endsWith('pack-texts.ts') && one.target.endsWith('.rules.yaml'),
    );
    const there = readdirSync(join(source, 'rules/packs')).filter((name) => name.endsWith('.rules.yaml'));
    expect(known.map((one) => one.target.split('/').at(-1)).sort()).toEqual(there.sort());
  });
});
