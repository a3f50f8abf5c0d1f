import { describe, expect, test } from 'vitest';
import { guideOf, printedOf, printedSample, stepOf } from './printed';

const step = async (yaml: string) => stepOf(await printedOf(guideOf(yaml)), '1.1');

describe('a printed step', () => {
  test('has its words with what they name filled in', async () => {
    const one = await step(
      '- { text: "Tighten {part:front-shock} to {torque:front-shock.top-nut}, as in {step:later}.", do: [{ torque: front-shock.top-nut, to: 62 N·m }] }\n- { id: later, text: Look., do: [{ check: steering }] }',
    );
    expect(one.words).toBe('Tighten front shock to 62 N·m, as in step 1.2.');
    expect(one.text.map(({ kind }) => kind)).toEqual([
      'plain',
      'part',
      'plain',
      'torque',
      'plain',
      'step',
      'plain',
    ]);
  });

  test('without words has its operations as sentences', async () => {
    const one = await step(
      '- do: [{ support: front-axle, with: pole-jacks }, { remove: front-shock.lower-bolt, side: left }]',
    );
    expect(one.words).toBe('Support front axle with pole jacks. Remove front shock, lower bolt, left.');
  });

  test.each([
    ['- { text: A., do: [{ loosen: front-wheel.nut }] }', 'left and right'],
    ['- { text: A., side: right, do: [{ loosen: front-wheel.nut }] }', 'right side only'],
    ['- { text: A., side: each, do: [{ loosen: front-wheel.nut }] }', 'one side, then the other'],
    ['- { text: A., do: [{ loosen: step-plate.screw }] }', null],
    [
      '- { text: A., do: [{ loosen: front-wheel.nut, side: left }, { loosen: front-shock, side: right }] }',
      'left and right',
    ],
  ])('says its sides: %s', async (yaml, sides) => {
    expect((await step(yaml)).sides).toBe(sides);
  });

  test('has marks for variants, choice, people, drafts; cautions the gravest first', async () => {
    const one = await step(
      '- { text: A., when: { lockers: fitted }, optional: true, people: 2, skill: electrician, draft: true, caution: [{ signal: caution, text: Hot. }, { signal: danger, text: Falls. }, { signal: notice, text: Bends. }], do: [{ check: steering }] }',
    );
    expect(one).toMatchObject({
      when: 'lockers: fitted',
      optional: true,
      people: 2,
      skill: 'electrician',
      draft: true,
    });
    expect(one.cautions.map(({ signal }) => signal)).toEqual(['danger', 'caution', 'notice']);
  });

  test('leads from a joint that is only brought up to the step in which it is tightened', async () => {
    const guide = await printedOf(
      guideOf(`- { text: Up., do: [{ remove: front-shock.lower-bolt }, { snug: front-shock.lower-bolt }] }
- { text: Down., do: [{ lower: vehicle }] }
- { text: Tight., do: [{ torque: front-shock.lower-bolt }] }`),
    );
    expect(stepOf(guide, '1.1').callouts).toContainEqual({
      sort: 'later',
      label: 'front shock, lower bolt',
      figure: null,
      details: ['tighten in step 1.3, at ride height', '90 N·m · 66 lbf·ft'],
      when: null,
    });
  });

  test('has pictures with their words', async () => {
    const one = await step(
      '- { text: A., figure: { file: pictures/a.svg, caption: The plate., alt: A plate. }, do: [{ check: steering }] }',
    );
    expect(one.figures).toEqual([
      { name: '/shop/pictures/a.svg', file: 'pictures/a.svg', caption: 'The plate.', alt: 'A plate.' },
    ]);
  });

  test('of a section from elsewhere has the number of the step that uses it, and its own', async () => {
    const guide = await printedSample('wren/wren-tow-bar');
    const numbers = guide.sections[0]!.steps.map(({ number }) => number);
    expect(numbers).toEqual([
      '1.1',
      '1.2',
      '1.3',
      '1.4',
      '1.5',
      '1.5.1',
      '1.5.2',
      '1.6',
      '1.6.1',
      '1.6.2',
      '1.6.3',
      '1.6.4',
      '1.6.5',
      '1.6.6',
    ]);
  });
});

describe('the cover', () => {
  test('says what stands open, and what was not checked', async () => {
    const guide = await printedOf(
      guideOf(
        '- { text: Think. }\n- { text: Off., do: [{ remove: front-shok }] }\n- { text: Draft., draft: true, do: [{ check: steering }] }',
      ),
    );
    expect(guide.cover).toMatchObject({ steps: 3, unchecked: ['1.1', '1.2'], drafts: ['1.3'] });
    expect(guide.cover.findings.error).toBeGreaterThan(0);
  });
});

describe('a torque that comes later', () => {
  const later = (guide: Awaited<ReturnType<typeof printedOf>>) =>
    stepOf(guide, '1.1')
      .callouts.filter(({ sort }) => sort === 'later')
      .map(({ details, when }) => [...details, when]);

  test('is told variant by variant, from the step in which each gets it, with its angle', async () => {
    const guide = await printedOf(
      guideOf(`- { text: Up., do: [{ snug: front-wheel.nut }] }
- { text: Short., when: { wheelbase: short }, do: [{ torque: front-wheel.nut, to: 95 N·m, then: 90° }] }
- { text: Long., when: { wheelbase: long }, do: [{ torque: front-wheel.nut, to: [{ when: { lockers: fitted }, is: 140 N·m }, { is: 120 N·m }] }] }`),
    );
    expect(later(guide)).toEqual([
      ['tighten in step 1.2', '95 N·m · 70 lbf·ft, then 90°', 'wheelbase: short'],
      ['tighten in step 1.3', '140 N·m · 103 lbf·ft', 'wheelbase: long and lockers: fitted'],
      ['tighten in step 1.3', '120 N·m · 89 lbf·ft', 'wheelbase: long and lockers: none'],
    ]);
  });

  test("is nobody's figure where nobody says one", async () => {
    const guide = await printedOf(
      guideOf(`- { text: Up., do: [{ snug: front-wheel.cap }] }
- { text: Tight., do: [{ torque: front-wheel.cap }] }`),
      {
        files: {
          'moorhen.vehicle.yaml':
            'kitproof: vehicle/1\nname: Moorhen\nparts: { front-wheel: { kind: wheel, joints: { cap: {} } } }\n',
        },
      },
    );
    expect(later(guide)).toEqual([['tighten in step 1.2', 'no figure', null]]);
  });

  test('is not one of an earlier step', async () => {
    const guide = await printedOf(
      guideOf(`- { text: A., do: [{ torque: front-wheel.nut }] }
- { text: B., do: [{ snug: front-wheel.nut }] }`),
    );
    expect(stepOf(guide, '1.2').callouts.filter(({ sort }) => sort === 'later')).toEqual([]);
  });
});

describe('a torque in words', () => {
  const yaml =
    '- { text: "To {torque:front-wheel.nut}.", do: [{ torque: front-wheel.nut, to: [{ when: { wheelbase: long }, is: 140 N·m }, { is: 120 N·m }], then: 30° }] }';
  test('says which figure is whose, with the angle', async () => {
    expect((await step(yaml)).words).toBe(
      'To 140 N·m then 30° (wheelbase: long) or 120 N·m then 30° (wheelbase: short).',
    );
  });
  test('is one figure for one variant', async () => {
    const guide = await printedOf(guideOf(yaml), { variant: { wheelbase: 'short' } });
    expect(stepOf(guide, '1.1').words).toBe('To 120 N·m then 30°.');
  });
});
