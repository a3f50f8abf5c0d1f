import fc from 'fast-check';
import { expect, it } from 'vitest';
import { applyEdits } from '../../server/src/edit/apply';
import { differences } from '../../server/src/edit/difference';

const made = (before: string, after: string) =>
  applyEdits(
    before,
    differences(before, after).map(({ start, end, text }) => ({
      place: { uri: '', span: { start, end } },
      text,
    })),
  );

const lines = fc.array(fc.constantFrom('a\n', 'b\n', 'a b\r\n', 'x\n', '\n', 'é🔧\n', 'é🔩\n', 'tail'), {
  maxLength: 12,
});

it('the changes from one text to another make the other', () => {
  fc.assert(
    fc.property(lines, lines, (a, b) => {
      expect(made(a.join(''), b.join(''))).toBe(b.join(''));
    }),
  );
});

it('are few: a line that goes in, a word that became another', () => {
  expect(differences('a\nb\nc\n', 'a\nb\nx\nc\n')).toEqual([{ start: 4, end: 4, text: 'x\n' }]);
  expect(differences('a\nwrong name\nc\n', 'a\nright name\nc\n')).toEqual([
    { start: 2, end: 7, text: 'right' },
  ]);
  expect(differences('a\n', 'a\n')).toEqual([]);
  // Halves of a character are never parted.
  expect(differences('🔧\n', '🔩\n')).toEqual([{ start: 0, end: 2, text: '🔩' }]);
});
