import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { printYaml } from '../../server/src/text/print';

it('prints short maps and lists on one line, operations one under the other', () => {
  const example = {
    vehicle: { parts: { bracket: { kind: 'bracket', joints: { bolt: { torque: '22 N·m' } } } } },
    do: [{ unbolt: 'bracket' }, { torque: 'bracket.bolt', to: '8.8', stages: ['10 N·m', '22 N·m'] }],
  };
  expect(printYaml(example, 80)).toBe(`vehicle:
  parts: { bracket: { kind: bracket, joints: { bolt: { torque: 22 N·m } } } }
do:
  - { unbolt: bracket }
  - { torque: bracket.bolt, to: "8.8", stages: [10 N·m, 22 N·m] }
`);
  expect(printYaml(example, 20)).toContain(
    '  - torque: bracket.bolt\n    to: "8.8"\n    stages:\n      - 10 N·m\n',
  );
});

it('prints what reads as the same data', () => {
  const leaf = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 12 }),
    fc.constantFrom(
      'on',
      'true',
      'null',
      '1e3',
      '- a',
      'a: b',
      'a #b',
      '{',
      '',
      ' ',
      '0x1',
      '2026-12-31',
      '~',
      '.5',
    ),
    fc.boolean(),
    fc.integer(),
    fc.constant(null),
  );
  const { tree } = fc.letrec((tie) => ({
    tree: fc.oneof(
      { maxDepth: 4 },
      leaf,
      fc.array(tie('tree'), { maxLength: 3 }),
      fc.dictionary(
        fc.string({ maxLength: 6 }).filter((key) => key !== '__proto__' && key !== '<<'),
        tie('tree'),
        { maxKeys: 3 },
      ),
    ),
  }));
  fc.assert(
    fc.property(tree, fc.constantFrom(10, 40, 200), (value, width) => {
      const printed = printYaml(value, width);
      expect(parse(printed, { schema: 'core' }), printed).toEqual(JSON.parse(JSON.stringify(value)));
    }),
    { numRuns: 400 },
  );
});
