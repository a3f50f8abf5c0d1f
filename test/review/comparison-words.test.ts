import fc from 'fast-check';
import { expect, it } from 'vitest';
import { piecesOf } from '../../server/src/review/comparison-words';

const marked = (from: string, to: string) =>
  piecesOf(from, to)
    .map(({ text, how }) => (how === 'same' ? text : how === 'gone' ? `[-${text}-]` : `[+${text}+]`))
    .join('');

it('marks the words that differ, in stretches', () => {
  expect(marked('Take all four wheels off.', 'Take the wheels off.')).toBe(
    'Take [-all four -][+the +]wheels off.',
  );
  expect(marked('The last is off. Keep it carried.', 'The last is off.')).toBe(
    'The last is off[-. Keep it carried-].',
  );
  expect(marked('Put it back.', 'Put it back, arrow up.')).toBe('Put it back[+, arrow up+].');
  expect(marked('', 'New.')).toBe('[+New.+]');
});

it('loses nothing of either text', () => {
  const text = fc.string({ unit: fc.constantFrom('a', 'b', ' ', '.', '\n', '…') });
  fc.assert(
    fc.property(text, text, (from, to) => {
      const pieces = piecesOf(from, to);
      const without = (how: string) => pieces.filter((one) => one.how !== how).map((one) => one.text);
      expect([without('new').join(''), without('gone').join('')]).toEqual([from, to]);
    }),
  );
});
