import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LocatedText, type Reading, readText } from '../../server/src/text/read';
import { GUIDE, VEHICLE } from './fixtures';
import { outline } from './outline';

/** Everything a reading says, as text. */
function said(reading: Reading): string {
  const targets = [...reading.targets].map(([alias, target]) => [alias.start, target.start, target.end]);
  return JSON.stringify([outline(reading.root), reading.problems, reading.damaged, targets, reading.length]);
}

const PIECES = [
  '',
  ' ',
  '  ',
  '\n',
  '\r\n',
  '\r',
  '\n\n',
  '\t',
  '-',
  '- ',
  ':',
  ': ',
  '#',
  '# x\n',
  '"',
  "'",
  '[',
  ']',
  '{',
  '}',
  ',',
  '&a ',
  '*a',
  '<<: *a',
  '|',
  '|\n',
  '>',
  '!',
  '!!str ',
  '%',
  '---',
  '---\n',
  '...\n',
  '? ',
  'x',
  'word',
  'word:\n',
  'steps:\n',
  '    steps:\n',
  'sections:\n',
  '\nsections:',
  '      - id: new\n',
  '  - title: New\n',
  '\n  - title: New\n    steps:\n      - id: a\n',
  'parts:\n',
  '  part: { a: 1 }\n',
  '\u{1f527}',
  '\ufeff',
  '\u2028',
  '\0',
  'key: value\n',
  '\n\n\n',
  '          ',
  "it's",
  '1.5',
  'true',
  '~',
];

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  deleted: fc.oneof(
    { weight: 3, arbitrary: fc.constant(0) },
    { weight: 3, arbitrary: fc.nat(6) },
    { weight: 1, arbitrary: fc.nat(200) },
  ),
  inserted: fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...PIECES) },
    { weight: 1, arbitrary: fc.string({ maxLength: 6 }) },
  ),
});

describe('a text read after edits', () => {
  for (const [name, text] of [
    ['guide', GUIDE],
    ['vehicle', VEHICLE],
    ['guide with CRLF', GUIDE.replaceAll('\n', '\r\n')],
    ['guide with CR', `\ufeff${GUIDE.replaceAll('\n', '\r')}`],
    ['nothing', ''],
  ] as const) {
    it(`equals a fresh read: ${name}`, () => {
      fc.assert(
        fc.property(fc.array(edit, { minLength: 1, maxLength: 12 }), (edits) => {
          const located = new LocatedText(text);
          let plain: string = text;
          for (const { at, deleted, inserted } of edits) {
            const offset = Math.floor(at * plain.length);
            const count = Math.min(deleted, plain.length - offset);
            plain = plain.slice(0, offset) + inserted + plain.slice(offset + count);
            located.edit(offset, count, inserted);
            expect(located.text()).toBe(plain);
            expect(said(located.reading())).toBe(said(readText(plain)));
          }
        }),
        { numRuns: 120, seed: 7 },
      );
    });
  }
});
