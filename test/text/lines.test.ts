import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Lines } from '../../server/src/text/lines';

it('counts lines by LF, CRLF and CR, and characters in UTF-16 units', () => {
  const lines = new Lines('ab\nc\r\n\u{1f527}d\re');
  expect(lines.count).toBe(4);
  expect(lines.positionAt(3)).toEqual({ line: 1, character: 0 });
  expect(lines.positionAt(8)).toEqual({ line: 2, character: 2 });
  expect(lines.lineColumnAt(10)).toEqual({ line: 4, column: 1 });
  expect(lines.positionAt(99)).toEqual({ line: 3, character: 1 });
  expect(lines.positionAt(5)).toEqual({ line: 1, character: 1 });
  expect(lines.offsetAt({ line: 1, character: 99 })).toBe(4);
  expect(lines.offsetAt({ line: 99, character: 0 })).toBe(11);
  expect(new Lines('').positionAt(0)).toEqual({ line: 0, character: 0 });
});

it('goes there and back', () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom('a', '\n', '\r', '\r\n', '\u{1f527}', '\u2028')),
      fc.nat(40),
      (parts, at) => {
        const text = parts.join('');
        const offset = Math.min(at, text.length);
        const before = text.slice(0, offset).split(/\r\n|\r|\n/);
        const insideBreak = text[offset - 1] === '\r' && text[offset] === '\n';
        const lines = new Lines(text);
        fc.pre(!insideBreak);
        expect(lines.positionAt(offset)).toEqual({
          line: before.length - 1,
          character: before.at(-1)!.length,
        });
        expect(lines.offsetAt(lines.positionAt(offset))).toBe(offset);
      },
    ),
  );
});
