import { describe, expect, test } from 'vitest';
import { guideOf, printedOf, rowsOf } from './printed';

const LOOK = '- { text: Look., do: [{ check: steering, expect: free }] }';

describe('what is in the box', () => {
  test('is every part of the kit with its pieces, and the hardware with where it goes', async () => {
    const { lists } = await printedOf(guideOf(LOOK));
    expect(rowsOf(lists.parts)).toEqual([
      { id: 'front-shock-50', part: 'Front shock 50', quantity: 2, replaces: 'front shock', mass: '4.5 kg' },
      { id: 'guard', part: 'Guard', quantity: 1, mass: '21 kg', when: 'lockers: fitted' },
    ]);
    expect(rowsOf(lists.hardware)).toEqual([
      {
        id: 'bolt-m12x70',
        piece: 'Bolt M12x70',
        quantity: 2,
        thread: 'M12x1.75',
        class: '10.9',
        for: 'front shock 50, lower bolt',
      },
    ]);
  });

  test('leaves out what the variant printed does not have', async () => {
    const { lists } = await printedOf(guideOf(LOOK), { variant: { lockers: 'none' } });
    expect(rowsOf(lists.parts).map(({ id }) => id)).toEqual(['front-shock-50']);
  });
});

describe('consumables', () => {
  test('are what is put on, and new pieces that no box has', async () => {
    const { lists } = await printedOf(
      guideOf(`- { text: Stick., do: [{ apply: threadlocker, to: front-shock.lower-bolt }] }
- { text: Paint., do: [{ coat: guard.frame-hole, with: zinc primer }, { clean: guard.frame-hole, with: brake cleaner }] }
- { text: Brush., do: [{ clean: guard.frame-hole, with: wire brush }] }
- { text: Nut., do: [{ start: front-shock.top-nut, new: [nut] }] }
- { text: Bolt., do: [{ start: front-shock-50.lower-bolt, new: [bolt] }] }
- { text: Bush., do: [{ renew: front-shock.top-nut.bush, if-needed: true, side: left }] }`),
    );
    expect(rowsOf(lists.consumables)).toEqual([
      { what: 'Threadlocker', for: 'front shock, lower bolt', steps: '1.1' },
      { what: 'Zinc primer', for: 'guard, frame hole', steps: '1.2' },
      { what: 'Brake cleaner', for: 'guard, frame hole', steps: '1.2' },
      { what: 'Nut, M12x1.25', quantity: 2, for: 'front shock, top nut', steps: '1.4' },
      { what: 'Bush', quantity: 1, for: 'front shock, top nut', note: 'if needed', steps: '1.6' },
    ]);
    expect(rowsOf(lists.tools).map(({ tool }) => tool)).toContain('Wire brush');
  });
});

describe('checks', () => {
  const steps = `- { text: Look., do: [{ record: ride-height }, { check: steering, expect: free }] }
- { text: Up., do: [{ raise: vehicle, with: two-post-lift }] }
- { text: Look., when: { lockers: fitted }, do: [{ measure: gap, expect: { at-least: 5 mm } }] }
- { text: Down., do: [{ lower: vehicle }] }
- { text: Look., do: [{ check: [pedal, lamps], expect: as before }] }`;
  const owes = `owes:
  - { check: alignment, before: road, because: Arms were undone. }
  - { check: front-wheel.nut, after: 80 km, because: Nuts settle. }
  - { check: papers, before: first tow }
`;

  test('are all that is looked at and measured', async () => {
    const { lists } = await printedOf(guideOf(steps, owes));
    expect(rowsOf(lists.checks)).toEqual([
      { what: 'Ride height', expected: 'write down', step: '1.1' },
      { what: 'Steering', expected: 'free', step: '1.1' },
      { what: 'Gap', expected: 'at least 5 mm', when: 'lockers: fitted', step: '1.3' },
      { what: 'Pedal', expected: 'as before', step: '1.5' },
      { what: 'Lamps', expected: 'as before', step: '1.5' },
    ]);
  });

  test('before driving are those with the vehicle down, and what is owed before the road', async () => {
    const { beforeDriving, handover } = await printedOf(guideOf(steps, owes));
    expect(rowsOf(beforeDriving).map(({ what }) => what)).toEqual([
      'Pedal',
      'Lamps',
      'Alignment',
      'Tools, rags and old parts',
    ]);
    expect(rowsOf(handover)).toEqual([
      { what: 'Front wheel, nut', 'when-due': 'after 80 km', because: 'Nuts settle.' },
      { what: 'Papers', 'when-due': 'before first tow' },
    ]);
  });
});

describe('settings', () => {
  test('have a table for each trait or option that they depend on', async () => {
    const { settings } = await printedOf(
      guideOf(`- { text: Low., when: { lift: 40 mm }, do: [{ set: bar-hole, to: lower }] }
- { text: High., when: { lift: 50 mm }, do: [{ set: bar-hole, to: upper }, { adjust: brace, to: 12 mm }] }
- { text: All., do: [{ adjust: cable, to: fifth click }] }`),
    );
    expect(settings.map(({ title }) => title)).toEqual(['Settings by lift', 'Settings']);
    expect(rowsOf(settings[0]!)).toEqual([
      { lift: '40 mm', 'bar-hole': 'lower', steps: '1.1' },
      { lift: '50 mm', 'bar-hole': 'upper', brace: '12 mm', steps: '1.2' },
    ]);
    expect(rowsOf(settings[1]!)).toEqual([{ what: 'Cable', value: 'fifth click', step: '1.3' }]);
  });
});
