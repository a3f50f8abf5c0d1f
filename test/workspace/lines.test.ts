import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Lines } from '../../server/src/workspace/lines';

describe('lines and columns', () => {
  it('end at \\n, \\r\\n and a lone \\r', () => {
    const lines = new Lines('a\nbc\r\nd\re');
    expect([0, 1, 2, 3].map((line) => lines.lineAt(line))).toEqual(['a', 'bc', 'd', 'e']);
    expect(lines.positionAt(3)).toEqual({ line: 1, column: 1 });
    expect(lines.positionAt(8)).toEqual({ line: 3, column: 0 });
    expect(lines.positionAt(99)).toEqual({ line: 3, column: 1 });
    expect(lines.offsetAt(1, 50)).toBe(4);
  });

  it('agree with splitting the text, for any text and offset', () => {
    const text = fc.string({ unit: fc.constantFrom('a', '\n', '\r', 'é', '\u{1f527}', ' '), maxLength: 60 });
    fc.assert(
      fc.property(text, fc.nat(80), (content, offset) => {
        const at = Math.min(offset, content.length);
        const lines = new Lines(content);
        const { line, column } = lines.positionAt(at);
        // An offset between \r and \n still belongs to the line before.
        const before = content.slice(0, at).split(/\r\n|\n|\r(?!$)|\r$/);
        const between = content[at - 1] === '\r' && content[at] === '\n';
        expect(line).toBe(before.length - 1 - (between ? 1 : 0));
        if (!between) expect(column).toBe(before.at(-1)!.length);
        expect(lines.count).toBe(content.split(/\r\n|\n|\r/).length);
      }),
    );
  });
});
