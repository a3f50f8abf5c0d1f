import { expect } from 'vitest';
import { readText } from '../../server/src/text/read';

/**
 * Reads a fixture and holds its problems against its marks: a comment line with carets under the span, and the rule.
 * Mark lines are taken out before reading. Every problem needs its mark, every mark its problem.
 */
export function expectProblems(fixture: string): void {
  const clean: string[] = [];
  const expected: string[] = [];
  let lineStart = 0;
  for (const line of fixture.split('\n')) {
    const mark = /^\s*#?\s*(\^+) ([a-z-]+)$/.exec(line);
    if (mark) {
      const column = line.indexOf('^');
      const start = lineStart + column;
      expected.push(`${start}-${start + mark[1]!.length} ${mark[2]}`);
    } else {
      lineStart = clean.reduce((sum, one) => sum + one.length + 1, 0);
      clean.push(line);
    }
  }
  const text = clean.join('\n');
  const found = readText(text).problems.map((problem) => `${problem.start}-${problem.end} ${problem.rule}`);
  expect(found, text).toEqual(expected);
}
