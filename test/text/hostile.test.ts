import { describe, expect, it } from 'vitest';
import { LocatedText, readText } from '../../server/src/text/read';

/** Far above what any of these takes on an idle machine, far below a hang. */
const SECONDS = 10;

function rulesOf(text: string): string[] {
  const started = performance.now();
  const { problems } = readText(text);
  expect((performance.now() - started) / 1000).toBeLessThan(SECONDS);
  for (const { start, end } of problems) {
    expect(end).toBeGreaterThan(start);
    expect(text.slice(start, end)).not.toMatch(/[\r\n]/);
  }
  return problems.map((problem) => problem.rule);
}

function indented(depth: number, line: string): string {
  return Array.from({ length: depth }, (_, level) => `${' '.repeat(level)}${line}\n`).join('');
}

describe('hostile text ends soon, with one problem', () => {
  const DEPTH = 100_000;
  const cases: [name: string, text: string, rule: string][] = [
    ['lists in lists', `a: ${'['.repeat(DEPTH)}`, 'too-deep'],
    ['closed lists in lists', `a: ${'['.repeat(DEPTH)}${']'.repeat(DEPTH)}`, 'too-deep'],
    ['maps in maps', '{a: '.repeat(DEPTH), 'too-deep'],
    ['lists and maps', `a: ${'[{'.repeat(DEPTH)}`, 'too-deep'],
    ['dashes', '- '.repeat(DEPTH), 'too-deep'],
    ['explicit keys', '? '.repeat(DEPTH), 'too-deep'],
    ['keys by indentation', indented(800, 'a:'), 'too-deep'],
    ['dashes by indentation', indented(800, '-'), 'too-deep'],
    ['closing braces', `a: ${'}'.repeat(20_000)}`, 'yaml-syntax'],
    ['closing brackets by line', `a:\n${'  ]\n'.repeat(20_000)}`, 'yaml-syntax'],
    ['an open quote of a million', `a: "${'x '.repeat(500_000)}`, 'yaml-syntax'],
    ['half a million values', 'a: 1\n'.repeat(500_001), 'too-large'],
    ['more than eight million characters', 'a'.repeat(8_000_001), 'too-large'],
  ];
  for (const [name, text, rule] of cases) it(name, () => expect(rulesOf(text)).toEqual([rule]));

  it('reads to a depth of a hundred', () => {
    expect(rulesOf(`${'['.repeat(99)}${']'.repeat(99)}`)).toEqual([]);
    expect(rulesOf(indented(99, 'a:'))).toEqual([]);
    expect(rulesOf(`${'['.repeat(101)}${']'.repeat(101)}`)).toEqual(['too-deep']);
  });

  it('reads a hundred thousand keys, and finds the one that is there twice', () => {
    const keys = Array.from({ length: 100_000 }, (_, index) => `  k${index}: 1\n`).join('');
    expect(rulesOf(`a:\n${keys}`)).toEqual([]);
    expect(rulesOf(`a:\n${keys}  k5: 1\n`)).toEqual(['duplicate-key']);
  });

  it('caps unknown aliases', () => {
    expect(rulesOf(`a: [${'*b, '.repeat(50_000)}]\n`)).toHaveLength(51);
  });

  it('follows a chain of merges', () => {
    let text = 'a0: &a0 { x: 1 }\n';
    for (let level = 1; level < 20_000; level++) text += `a${level}: &a${level} { <<: *a${level - 1} }\n`;
    expect(rulesOf(text)).toEqual(['alias-bomb']);
  });

  it('comes back when a text above the limits is cut again', () => {
    const located = new LocatedText('a: 1\n');
    located.edit(5, 0, `# ${'x'.repeat(8_000_000)}\n`);
    expect(located.reading().problems[0]!.rule).toBe('too-large');
    located.edit(5, 8_000_003, 'b: 2\n');
    expect(located.text()).toBe('a: 1\nb: 2\n');
    expect(located.reading()).toEqual(readText('a: 1\nb: 2\n'));
    located.edit(0, 0, 'c: 1\n'.repeat(25_000));
    expect(located.reading().problems).toHaveLength(51);
    located.edit(0, 125_000, '');
    expect(located.reading()).toEqual(readText('a: 1\nb: 2\n'));
  });
});
