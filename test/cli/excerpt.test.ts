import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { excerptOf } from '../../server/src/cli/excerpt';
import { widthOf } from '../../server/src/cli/width';
import { Lines } from '../../server/src/text/lines';

function excerptAt(text: string, word: string, width = 80) {
  const start = text.indexOf(word);
  const { source, blanks, marks } = excerptOf(new Lines(text), { start, end: start + word.length }, width);
  return [source, blanks + marks];
}

describe('the source line of a finding', () => {
  it('has marks under its span', () => {
    expect(excerptAt('a: 1\n  - remove: bolt  # now\n', 'bolt')).toEqual([
      '  - remove: bolt  # now',
      '            ^^^^',
    ]);
  });

  it('keeps them there after tabs, wide characters, accents and emoji', () => {
    expect(excerptAt('\tab\tbolt', 'bolt')).toEqual(['    ab  bolt', '        ^^^^']);
    expect(excerptAt('車軸: bolt', 'bolt')).toEqual(['車軸: bolt', '      ^^^^']);
    expect(excerptAt('e\u0301e\u0301: bolt', 'bolt')).toEqual(['e\u0301e\u0301: bolt', '    ^^^^']);
    expect(excerptAt('🔧: 🔩', '🔩')).toEqual(['🔧: 🔩', '    ^^']);
  });

  it('has one mark at least: for an empty span, and at the end of a line', () => {
    expect(excerptOf(new Lines('key:'), { start: 4, end: 4 }, 80)).toMatchObject({
      blanks: '    ',
      marks: '^',
    });
    expect(excerptOf(new Lines(''), { start: 0, end: 0 }, 80)).toMatchObject({ source: '', marks: '^' });
  });

  it('marks what stands on the first line of a longer span', () => {
    const text = 'do:\n  - remove: bolt   \n    new: [nut]\n';
    const start = text.indexOf('- remove');
    expect(excerptOf(new Lines(text), { start, end: text.length }, 80).marks).toBe(
      '^'.repeat('- remove: bolt'.length),
    );
  });

  it('shows nothing that would move the cursor or turn the writing', () => {
    const [source] = excerptAt('a\u001b[31m\u202e: bolt\u0007', 'bolt');
    expect(source).toBe('a·[31m·: bolt·');
  });

  it('is cut around the span where it is long', () => {
    const line = `text: ${'word '.repeat(40)}bolt ${'more '.repeat(40)}`;
    const [source, marks] = excerptAt(line, 'bolt', 50);
    expect(source!.startsWith('…')).toBe(true);
    expect(source!.endsWith('…')).toBe(true);
    expect(source!.slice(marks!.indexOf('^'), marks!.lastIndexOf('^') + 1)).toBe('bolt');
  });

  it('never stands wider than there is room, and always marks the span', () => {
    const character = fc.constantFrom('a', ' ', '\t', '車', '🔧', 'é', '\u0301');
    fc.assert(
      fc.property(
        fc.string({ unit: character, maxLength: 150 }),
        fc.nat(200),
        fc.nat(60),
        fc.integer({ min: 20, max: 90 }),
        (text, start, length, width) => {
          const from = Math.min(start, text.length);
          const { source, blanks, marks } = excerptOf(
            new Lines(text),
            { start: from, end: from + length },
            width,
          );
          expect(widthOf(source)).toBeLessThanOrEqual(width + 2);
          expect(blanks.length + marks.length).toBeLessThanOrEqual(width + 3);
          expect(marks).toMatch(/^\^+$/);
        },
      ),
    );
  });
});
