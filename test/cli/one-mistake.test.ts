import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

const HEAD = 'kitproof: install/1\ntitle: T\nsections:\n  - title: S\n    steps:\n';
const LAST = '      - text: Look.\n        do: [{ check: c }]\n';

/** One slip of the keyboard in a step, and the one thing that is told of it. */
const SLIPS: readonly (readonly [string, string, string])[] = [
  [
    'a text one space short',
    '      - id: b\n       text: Wheels off.\n        do:\n          - check: wheel\n',
    '7 yaml-syntax',
  ],
  [
    'a last text one space short',
    '      - id: b\n        do: [{ check: wheel }]\n       text: Off.\n',
    '8 yaml-syntax',
  ],
  [
    'a text one space too far',
    '      - id: b\n         text: Off.\n        do:\n          - check: wheel\n',
    '7 yaml-syntax',
  ],
  ['a do one space short', '      - text: Off.\n       do:\n          - check: wheel\n', '7 yaml-syntax'],
  ['a time one space short', '      - do: [{ check: a }]\n       time: 5 min\n', '7 yaml-syntax'],
  ['a second colon', '      - text: Caution: hot.\n        do: [{ check: a }]\n', '6 yaml-syntax'],
  ['a second colon in a text alone', '      - text: Caution: hot.\n', '6 yaml-syntax'],
  [
    'a second colon in a note',
    '      - do:\n          - check: c\n            note: hot: very\n',
    '8 yaml-syntax',
  ],
  ['a second colon in braces', '      - do: [{ check: c, note: hot: very }]\n', '6 yaml-syntax'],
  ['a tab before do', '      - text: Off.\n\tdo:\n          - check: wheel\n', '7 tab-indent'],
  ['tabs before an operation', '      - text: Off.\n        do:\n\t\t- check: wheel\n', '8 tab-indent'],
  ['tabs before a time', '      - text: Off.\n\t\ttime: 5 min\n', '7 tab-indent'],
];

describe('after one mistake only the cause is told:', () => {
  it.each(SLIPS)('%s', async (_name, step, told) => {
    for (const steps of [step + LAST, LAST + step]) {
      const { out } = await kitproof(['check', '-', '--format', 'json'], { input: HEAD + steps });
      const found: string[] = JSON.parse(out).findings.map(
        (one: { line: number; rule: string }) => `${one.line - (steps.startsWith(LAST) ? 2 : 0)} ${one.rule}`,
      );
      expect(found).toEqual([told]);
    }
  });

  it('a step without operations elsewhere is still told of', async () => {
    const { out } = await kitproof(['check', '-', '--format', 'json'], {
      input: `${HEAD}      - text: Think.\n${LAST}      - text: Caution: hot.\n`,
    });
    const found = JSON.parse(out).findings.map(
      (one: { line: number; rule: string }) => `${one.line} ${one.rule}`,
    );
    expect(found).toEqual(['6 unchecked-step', '9 yaml-syntax']);
  });
});
