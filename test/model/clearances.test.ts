/** A kit's table of tyres by lift: gaps, overlaps, and rows in the wrong sense. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkFiles } from '../support/engine';
import { expectChecked } from '../support/marked';
import { checkProject } from './support';

const VEHICLE = `
# file: wren.vehicle.yaml
kitproof: vehicle/1
name: Wren
traits: { wheelbase: [short, long], load: { from: 0 kg, to: 900 kg } }
parts: { body-plate: { kind: bracket, mass: 1 kg, joins: [frame] } }
`;
const kit = (rows: string, options = 'lift: [0 mm, 25 mm, 50 mm, 75 mm]', vehicle = VEHICLE) => `${vehicle}
# file: k.kit.yaml
kitproof: kit/1
name: Lift
for: Wren
options: { ${options} }
clearances:
${rows}`;
const row = (when: string, tyre: string, more = '') => `  - { when: { ${when} }, tyre: ${tyre}${more} }\n`;

/** The rules told, with their variants. */
async function told(text: string): Promise<string[]> {
  const files = Object.fromEntries(
    text
      .split('# file: ')
      .slice(1)
      .map((one) => [one.slice(0, one.indexOf('\n')), one.slice(one.indexOf('\n') + 1)]),
  );
  const { findings } = await checkFiles(files);
  return findings.map(({ rule, variants }) => `${rule} ${JSON.stringify(variants)}`);
}

describe('tables that are in order are silent', () => {
  it.each([
    ['one row for each', row('lift: [0 mm, 25 mm]', '225/65R17') + row('lift: [50 mm, 75 mm]', '245/65R17')],
    ['ranges', row('lift: { below: 50 mm }', '225/65R17') + row('lift: { at-least: 50 mm }', '245/65R17')],
    ['inches', row('lift: { below: 2 in }', '225/65R17') + row('lift: { at-least: 50.8 mm }', '245/65R17')],
    [
      'the same tyre twice',
      row('lift: { below: 50 mm }', '225/65R17') + row('lift: { at-least: 25 mm }', '225/65R17 102H'),
    ],
    ['a row for the rest', `${row('lift: 75 mm', '245/65R17')}  - { tyre: 225/65R17 }\n`],
    [
      'by another trait too',
      row('lift: { below: 50 mm }', '225/65R17') +
        row('lift: { at-least: 50 mm }, wheelbase: long', '245/65R17') +
        row('lift: { at-least: 50 mm }, wheelbase: short', '235/65R17'),
    ],
    [
      'for rims of other sizes',
      row('lift: { below: 50 mm }', '225/65R17') +
        row('lift: { below: 50 mm }', '225/60R18') +
        row('lift: { at-least: 50 mm }', '245/65R17'),
    ],
    [
      'for wheels of other offsets',
      row('lift: { below: 50 mm }', '225/65R17', ', offset: 30-45 mm') +
        row('lift: { below: 50 mm }', '245/65R17', ', offset: -10-20 mm') +
        row('lift: { at-least: 50 mm }', '245/65R17'),
    ],
    [
      'more load, a smaller tyre',
      row('load: { below: 400 kg }', '245/65R17') + row('load: { at-least: 400 kg }', '225/65R17'),
    ],
  ])('%s', async (_, rows) => {
    expect(await told(kit(rows))).toEqual([]);
  });
});

describe('a table', () => {
  it('with a gap: told at the table, with what it leaves out', async () => {
    await expectChecked(`${VEHICLE}
# file: k.kit.yaml
kitproof: kit/1
name: Lift
for: Wren
options: { lift: [0 mm, 25 mm, 50 mm, 75 mm] }
clearances:
#^^^^^^^^^ info[clearance-gap]: No row says what tyre clears here.
  - { when: { lift: { below: 25 mm } }, tyre: 225/65R17 }
  - { when: { lift: { at-least: 50 mm } }, tyre: 245/65R17 }
`);
    expect(
      await told(
        kit(row('lift: { below: 25 mm }', '225/65R17') + row('lift: { at-least: 50 mm }', '245/65R17')),
      ),
    ).toEqual(['clearance-gap [{"lift":["25 mm"]}]']);
  });

  it('with a gap in one wheelbase', async () => {
    const rows =
      row('lift: { below: 50 mm }', '225/65R17') +
      row('lift: { at-least: 50 mm }, wheelbase: long', '245/65R17');
    expect(await told(kit(rows))).toEqual([
      'clearance-gap [{"wheelbase":["short"],"lift":["50 mm","75 mm"]}]',
    ]);
  });

  it('with two rows for one lift: told at the second', async () => {
    await expectChecked(`${VEHICLE}
# file: k.kit.yaml
kitproof: kit/1
name: Lift
for: Wren
options: { lift: [0 mm, 25 mm, 50 mm] }
clearances:
  - { when: { lift: { at-most: 25 mm } }, tyre: 225/65R17 }
  - { when: { lift: { at-least: 25 mm } }, tyre: 245/65R17 }
#           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[clearance-overlap]: Where this row has 245/65R17, an earlier one has 225/65R17.
`);
  });

  it('with sizes that two rims cannot share', async () => {
    const rows =
      row('wheelbase: long', '225/65R17') +
      row('wheelbase: [long]', '285/75R16') +
      row('wheelbase: short', '225/65R17');
    expect(await told(kit(rows))).toEqual(['clearance-overlap [{"wheelbase":["long"]}]']);
  });

  it('in the wrong sense: told at the smaller tyre', async () => {
    await expectChecked(`${VEHICLE}
# file: k.kit.yaml
kitproof: kit/1
name: Lift
for: Wren
options: { suspension-lift: [0 mm, 25 mm, 50 mm] }
clearances:
  - { when: { suspension-lift: { below: 25 mm } }, tyre: 245/65R17 }
  - { when: { suspension-lift: { at-least: 25 mm } }, tyre: 225/65R17 }
#                                                           ^^^^^^^^^ warning[clearance-falls]: More lift clears a smaller tyre here: 225/65R17 is 26 mm less across than 245/65R17, which clears with less.
`);
  });

  it('whose condition names what is not there: that is told, and no gap', async () => {
    expect(await told(kit(row('lfit: 25 mm', '225/65R17') + row('lift: 50 mm', '245/65R17')))).toEqual([
      'unknown-option []',
    ]);
  });

  it('of a kit whose vehicle nobody knows is held against its options alone', async () => {
    const rows =
      row('lift: 0 mm, doors: gate', '225/65R17') +
      row('lift: 25 mm', '225/65R17') +
      row('lift: 25 mm', '245/65R17');
    const alone = kit(rows, 'lift: [0 mm, 25 mm]', '');
    expect(await told(alone)).toEqual(['clearance-overlap [{"lift":["25 mm"]}]']);
  });

  it('with a row that no vehicle has, and one that says nothing', async () => {
    const rows = row('lift: { above: 90 mm }', '245/65R17') + row('lift: { at-most: 75 mm }', '225/65R17');
    expect(await told(kit(rows))).toEqual(['never-there []', 'always-so []']);
  });
});

const GAPPED = kit(row('lift: 25 mm', '225/65R17') + row('lift: 50 mm', '245/65R17'));

describe('what a house makes of it', () => {
  const files = Object.fromEntries(
    GAPPED.split('# file: ')
      .slice(1)
      .map((one) => [one.slice(0, one.indexOf('\n')), one.slice(one.indexOf('\n') + 1)]),
  );
  it.each([
    ['off', []],
    ['error', ['error clearance-gap rework']],
  ])('%s', async (setting, wanted) => {
    const { findings } = await checkFiles(files, { rules: { 'clearance-gap': setting } });
    expect(findings.map(({ rule, severity, harm }) => `${severity} ${rule} ${harm}`)).toEqual(wanted);
  });
});

describe('fixes', () => {
  const fixed = (rows: string) => {
    const text = kit(rows);
    const files = text
      .split('# file: ')
      .slice(1)
      .map((one) => ({
        name: one.slice(0, one.indexOf('\n')),
        text: one.slice(one.indexOf('\n') + 1),
      }));
    const [finding] = checkProject(files);
    const edits = [...finding!.fixes[0]!.edits].sort((a, b) => b.place.span.start - a.place.span.start);
    let after = files[1]!.text;
    for (const { place, text: written } of edits)
      after = after.slice(0, place.span.start) + written + after.slice(place.span.end);
    expect(checkProject([files[0]!, { name: files[1]!.name, text: after }])).toEqual([]);
    return after.slice(after.indexOf('clearances:\n') + 12);
  };

  it('a gap is closed by the smaller tyre', () => {
    expect(
      fixed(row('lift: { below: 25 mm }', '225/65R17') + row('lift: { at-least: 50 mm }', '245/65R17')),
    ).toBe(row('lift: { below: 50 mm }', '225/65R17') + row('lift: { at-least: 50 mm }', '245/65R17'));
  });
  it('an overlap is left to the smaller tyre', () => {
    expect(
      fixed(row('lift: { at-most: 50 mm }', '225/65R17') + row('lift: { at-least: 25 mm }', '245/65R17')),
    ).toBe(row('lift: { at-most: 50 mm }', '225/65R17') + row('lift: { above: 50 mm }', '245/65R17'));
  });
  it('rows that were mixed up are swapped', () => {
    expect(
      fixed(row('lift: { below: 50 mm }', '245/65R17') + row('lift: { at-least: 50 mm }', '225/65R17')),
    ).toBe(row('lift: { below: 50 mm }', '225/65R17') + row('lift: { at-least: 50 mm }', '245/65R17'));
  });
});

it('gaps, overlaps and falls are those that a count of every lift finds', async () => {
  const lifts = [0, 20, 40, 60, 80];
  const sizes = ['225/65R17', '245/65R17', '265/70R17'];
  const rows = fc.array(
    fc.record({
      low: fc.constantFrom(...lifts),
      span: fc.integer({ min: 0, max: 4 }),
      size: fc.constantFrom(0, 1, 2),
    }),
    { minLength: 1, maxLength: 4 },
  );
  await fc.assert(
    fc.property(rows, (all) => {
      const ranges = all.map(({ low, span, size }) => ({ low, high: Math.min(80, low + 20 * span), size }));
      const text = ranges
        .map(({ low, high, size }) => row(`lift: { at-least: ${low} mm, at-most: ${high} mm }`, sizes[size]!))
        .join('');
      const files = kit(text, `lift: [${lifts.map((one) => `${one} mm`).join(', ')}]`)
        .split('# file: ')
        .slice(1)
        .map((one) => ({ name: one.slice(0, one.indexOf('\n')), text: one.slice(one.indexOf('\n') + 1) }));
      const rules = new Set(checkProject(files).map(({ rule }) => rule));
      const at = lifts.map((lift) =>
        ranges.filter(({ low, high }) => low <= lift && lift <= high).map(({ size }) => size),
      );
      expect(rules.has('clearance-gap')).toBe(at.some((one) => one.length === 0));
      expect(rules.has('clearance-overlap')).toBe(at.some((one) => new Set(one).size > 1));
      expect(rules.has('clearance-falls')).toBe(
        ranges.some((less) => ranges.some((more) => less.high < more.low && less.size > more.size)),
      );
    }),
    { numRuns: 150 },
  );
});
