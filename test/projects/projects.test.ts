import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { glob } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { main } from '../../server/src/cli/main';
import { diskFiles } from '../../server/src/workspace/disk';
import { nameOfPath } from '../../server/src/workspace/paths';
import { withOverlay } from '../../server/src/workspace/port';
import { NoBrowser } from '../../server/src/workspace/print-pdf';

/**
 * Whole repositories: each folder here has `command.txt`, command lines one a line, and `expected.txt`, what they print and
 * end with. `KITPROOF_UPDATE=1` writes the latter anew, and the README's copies of
 * it.
 */
const here = import.meta.dirname;
const cases = readdirSync(here, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name);

async function kitproof(
  words: readonly string[],
  folder: string,
  written: Map<string, string>,
): Promise<string> {
  let printed = '';
  const say = (text: string) => {
    printed += text;
  };
  const status = await main(words, {
    files: withOverlay(diskFiles, written),
    folder: nameOfPath(folder),
    glob: async (patterns) =>
      (await glob([...patterns], { cwd: folder, absolute: true })).map(nameOfPath).sort(),
    create: async () => false,
    replace: async (name, text) => {
      if (typeof text === 'string') written.set(name, text);
    },
    readInput: async () => '',
    out: say,
    err: say,
    outBytes: () => {},
    printPdf: async () => {
      throw new NoBrowser();
    },
    untilInterrupted: () => new Promise(() => {}),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: null,
    environment: {},
    today: '2026-03-14',
  });
  // Lines of a table for spreadsheets end otherwise; `test/cli/labour.test.ts` holds that.
  return `${printed.replaceAll('\r\n', '\n')}[exit status ${status}]\n`;
}

/** Words of a command line; quotes hold words together. */
function wordsOf(line: string): string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]!);
}

describe('projects', () => {
  it.each(cases)('%s', async (name) => {
    const folder = join(here, name);
    const lines = readFileSync(join(folder, 'command.txt'), 'utf8').split('\n').filter(Boolean);
    expect(lines.length).toBeGreaterThan(0);
    let printed = '';
    // What a command writes, the next ones read; the files of this repository stay as they are.
    const written = new Map<string, string>();
    for (const line of lines) {
      const [program, ...words] = wordsOf(line);
      expect(program).toBe('kitproof');
      printed += `${printed === '' ? '' : '\n'}$ ${line}\n${await kitproof(words, folder, written)}`;
    }
    const file = join(folder, 'expected.txt');
    if (process.env.KITPROOF_UPDATE) writeFileSync(file, printed);
    expect(existsSync(file)).toBe(true);
    expect(printed).toBe(readFileSync(file, 'utf8').replaceAll('\r\n', '\n'));
  });

  it('give the README its output', () => {
    const file = join(here, '../../README.md');
    const marks = /(<!-- test\/projects\/(\S+) -->\n```\n)([\s\S]*?)```/g;
    const outputOf = (name: string) =>
      readFileSync(join(here, name, 'expected.txt'), 'utf8')
        .replaceAll('\r\n', '\n')
        .replace(/\[exit status \d\]\n$/, '');
    const readme = readFileSync(file, 'utf8').replaceAll('\r\n', '\n');
    const wanted = readme.replace(marks, (_, head: string, name: string) => `${head}${outputOf(name)}\`\`\``);
    if (process.env.KITPROOF_UPDATE) writeFileSync(file, wanted);
    expect([...readme.matchAll(marks)].length).toBeGreaterThan(0);
    expect(readFileSync(file, 'utf8').replaceAll('\r\n', '\n')).toBe(wanted);
  });
});
