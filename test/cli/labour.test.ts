import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

const guide = (sections: readonly string[], skill = 'mechanic') =>
  `kitproof: install/1\ntitle: G\nsections:\n${sections
    .map(
      (title) =>
        `  - title: ${JSON.stringify(title)}\n    steps:\n      - { skill: ${JSON.stringify(skill)}, do: [{ loosen: guard.bolt }], time: { low: 5 min, likely: 8 min, high: 14 min } }\n`,
    )
    .join('')}`;

const labour = (text: string, words: readonly string[] = [], config = '') =>
  kitproof(['labour', 'g.install.yaml', ...words], {
    files: { 'g.install.yaml': text, 'kitproof.yaml': `kitproof: config/1\n${config}` },
  });

/** A reader of RFC 4180 that follows its grammar and nothing else. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const row: string[] = [];
    for (;;) {
      let field = '';
      if (text[at] === '"') {
        for (at++; ; at++) {
          if (text[at] === '"' && text[at + 1] === '"') at++;
          else if (text[at] === '"') break;
          if (at >= text.length) throw new Error('a quote that never ends');
          field += text[at];
        }
        at++;
      } else
        while (at < text.length && text[at] !== ',' && text[at] !== '\r') {
          if (text[at] === '"' || text[at] === '\n') throw new Error('a field that wants quotes');
          field += text[at++];
        }
      row.push(field);
      if (text[at] === ',') at++;
      else break;
    }
    if (text.slice(at, at + 2) !== '\r\n') throw new Error('a line that does not end with CR and LF');
    at += 2;
    rows.push(row);
  }
  return rows;
}

describe('labour as a table for spreadsheets', () => {
  it('is read back as it was meant, whatever titles and skills hold, and no field is a formula', async () => {
    const hostile = fc.oneof(
      fc.constantFrom(
        '=1+1',
        '+cmd',
        '-2',
        '@SUM(A1)',
        '\t=1',
        '"',
        ',',
        'a\nb',
        'a\r\nb',
        "'",
        '|x',
        '%y',
        ' =1',
      ),
      fc.string({ minLength: 1, maxLength: 12 }),
    );
    await fc.assert(
      fc.asyncProperty(hostile, hostile, async (title, skill) => {
        for (const words of [[], ['--explain']]) {
          const { status, out } = await labour(guide([title], skill), ['--format', 'csv', ...words]);
          expect(status).toBe(0);
          const rows = readCsv(out);
          for (const row of rows) {
            expect(row).toHaveLength(rows[0]!.length);
            for (const field of row) expect(field).not.toMatch(/^\s*[=+@-]/);
          }
          const shown = (rows[1]![2] ?? '').replace(/^'/, '');
          if (words.length === 0 && title.trim() === title && !title.startsWith("'"))
            expect(shown).toBe(title);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('has minutes and hours, the latter rounded up once', async () => {
    const { out } = await labour(
      guide(['S']),
      ['--format', 'csv'],
      'allowances: { personal: 20 %, on: job-time }\n',
    );
    const [head, ...rows] = readCsv(out);
    const at = (row: string, column: string) => rows.find(([sort]) => sort === row)![head!.indexOf(column)];
    expect(at('working time', 'highest expected (min)')).toBe('8.5');
    expect(at('quoted', 'highest expected (min)')).toBe('10.2');
    expect(at('allowance', 'highest expected (min)')).toBe('1.7');
    expect(at('quoted', 'lowest 50 % (h)')).toBe('0.2');
    expect(rows.map(([sort]) => sort)).toEqual([
      'section',
      'working time',
      'allowance',
      'quoted',
      'on the clock',
      'skill',
    ]);
  });

  it('of what every minute is made of adds up to the total', async () => {
    const { out } = await labour(guide(['S', 'T']), ['--format', 'csv', '--explain']);
    const [head, ...rows] = readCsv(out);
    const minutes = rows.map((row) => Number(row[head!.indexOf('labour (min)')]));
    expect(minutes.reduce((sum, one) => sum + one, 0)).toBeCloseTo(17, 6);
  });
});

describe('labour as Markdown', () => {
  it('keeps what titles hold from being markup', async () => {
    const { out } = await labour(guide(['a|b\n# c <script> [x](y) `z` *w*']), [
      '--format',
      'markdown',
      '--explain',
    ]);
    expect(out).toContain('a\\|b \\# c \\<script\\> \\[x\\](y) \\`z\\` \\*w\\*');
    const tables = out.split('\n').filter((line) => line.startsWith('|'));
    for (const line of tables) expect([5, 7]).toContain(line.split(/(?<!\\)\|/).length);
  });
});

describe('labour for people', () => {
  it('tells of an allowance that cannot be, and does not add it', async () => {
    const { out, err } = await labour(guide(['S']), [], 'allowances: { personal: 120 %, on: shift-time }\n');
    expect(err).toContain('no time is left to work in');
    expect(out).not.toContain('Quoted');
  });

  it('says that nothing is known of a job running over where no step has a low and a high', async () => {
    const { out } = await labour(
      'kitproof: install/1\ntitle: G\nsections:\n  - title: S\n    steps:\n      - { do: [{ loosen: guard.bolt }], time: 5 min }\n',
    );
    expect(out).toContain('The one timed step has no low and high');
  });

  it('fits eighty columns', async () => {
    const { out } = await kitproof(['labour', 'g.install.yaml', '--explain'], {
      files: {
        'g.install.yaml': guide(['A title that is rather long, so that it has to be cut somewhere, or else']),
      },
      io: { columns: 80 },
    });
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

it('what has no sides is done once, whatever sides its step is for', async () => {
  const { out } = await kitproof(['labour', 'g.install.yaml', '--explain'], {
    files: {
      'g.install.yaml':
        'kitproof: install/1\ntitle: G\nsections:\n  - title: S\n    steps:\n      - do: [{ isolate: battery }]\n',
      'kitproof.yaml': 'kitproof: config/1\ntimes: [a.times.yaml]\n',
      'a.times.yaml': 'kitproof: times/1\ntimes: [{ verb: isolate, time: 2 min }]\n',
    },
  });
  expect(out).toMatch(/isolate battery: 2 min {2}a\.times\.yaml/);
});

describe('what labour cannot count is told', () => {
  const text = guide(['One']);
  const run = (words: readonly string[], more: Readonly<Record<string, string>>) =>
    kitproof(['labour', 'g.install.yaml', ...words], {
      files: {
        'g.install.yaml': text,
        'kitproof.yaml': 'kitproof: config/1\ntimes: [shop.times.yaml]\n',
        ...more,
      },
    });

  it('a file of times that is not there', async () => {
    const { err, status } = await run([], {});
    expect(err).toContain(
      'kitproof: in kitproof.yaml: shop.times.yaml is not there, or does not begin with "kitproof: times/1". No time of it counts.',
    );
    expect(status).toBe(0);
  });

  it('a file of times that is something else', async () => {
    const { err } = await run([], { 'shop.times.yaml': 'kitproof: vehicle/1\nname: Moorhen\n' });
    expect(err).toContain(
      'kitproof: in kitproof.yaml: shop.times.yaml is no file of standard times. No time of it counts.',
    );
  });

  it('a file of times with errors in it', async () => {
    const { err } = await run([], {
      'shop.times.yaml':
        'kitproof: times/1\ntimes:\n  - { verb: check, time: 5 }\n  - { verb: torque, time: 1 min }\n',
    });
    expect(err).toContain(
      'kitproof: 1 error in reading shop.times.yaml; kitproof check tells. What could be read counts.',
    );
  });

  it('nothing is told of one that is in order', async () => {
    expect((await run([], { 'shop.times.yaml': 'kitproof: times/1\ntimes: []\n' })).err).toBe('');
  });

  it('one trait that is given two values', async () => {
    const { err, status } = await run(['--variant', 'lift=40 mm', '--variant', 'lift=50 mm'], {});
    expect(err).toContain('--variant says two things of "lift"; a vehicle is one of them, so give it once.');
    expect(status).toBe(2);
  });
});
