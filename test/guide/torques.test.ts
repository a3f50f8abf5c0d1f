import { describe, expect, test } from 'vitest';
import { bothUnits } from '../../server/src/guide/figures';
import { parseQuantity } from '../../server/src/units/quantity';
import { printedPairs } from '../units/printed-pairs';
import { guideOf, printedOf, rowsOf, stepOf } from './printed';

const torque = (text: string) => {
  const read = parseQuantity(text, 'torque');
  if (!read.ok) throw new Error(text);
  return bothUnits(read.quantity);
};

describe('the torque table', () => {
  test('has every final torque in the order of the steps, with its joint, bolts, sides and both units', async () => {
    const guide = await printedOf(
      guideOf(`- { text: Plate off and on., do: [{ unbolt: step-plate }, { bolt-up: step-plate }, { torque: step-plate.screw }] }
- { text: Nuts., do: [{ loosen: front-wheel.nut }, { torque: front-wheel.nut, pattern: star, stages: [50 N·m, 130 N·m] }] }
- { text: Nuts., do: [{ torque: front-wheel.nut, side: left, to: 120 N·m (89 lbf·ft), then: 30° }] }`),
    );
    expect(rowsOf(guide.lists.torque)).toEqual([
      {
        id: 'step-plate.screw',
        joint: 'Step plate, screw',
        bolts: '4',
        thread: 'M6x1.0',
        spanner: '5 mm key',
        'newton-metres': '8',
        'pound-feet': '71 lbf·in',
        step: '1.1',
      },
      {
        id: 'front-wheel.nut',
        joint: 'Front wheel, nut',
        sides: 'left, right',
        bolts: '2 × 5',
        thread: 'M14x1.5',
        spanner: '21 mm',
        'newton-metres': '130',
        'pound-feet': '96',
        how: 'in stages: 50, 130 N·m (37, 96 lbf·ft); star pattern',
        step: '1.2',
      },
      {
        id: 'front-wheel.nut',
        joint: 'Front wheel, nut',
        sides: 'left',
        bolts: '5',
        thread: 'M14x1.5',
        spanner: '21 mm',
        'newton-metres': '120',
        'pound-feet': '89',
        how: 'then 30°',
        step: '1.3',
      },
    ]);
  });

  test('parts joints that wait for ride height from the others', async () => {
    const guide = await printedOf(
      guideOf(`- { text: Bolts., do: [{ loosen: front-shock.lower-bolt }, { torque: front-shock }] }`),
    );
    const joints = (rows: ReturnType<typeof rowsOf>) => rows.map(({ id }) => id);
    expect(joints(rowsOf(guide.torques.anywhere))).toEqual(['front-shock.top-nut']);
    expect(joints(rowsOf(guide.torques.rideHeight))).toEqual(['front-shock.lower-bolt']);
    expect(joints(rowsOf(guide.lists.torque))).toEqual(['front-shock.top-nut', 'front-shock.lower-bolt']);
  });

  test('has a line for each figure by variant, and one for those that the data have', async () => {
    const guide = await printedOf(
      guideOf(
        `- { text: Nuts., do: [{ torque: front-wheel.nut, to: [{ when: { wheelbase: long }, is: 140 N·m }, { when: { wheelbase: short, lockers: fitted }, is: maker }] }] }`,
      ),
    );
    expect(rowsOf(guide.lists.torque).map((row) => [row['newton-metres'], row.when])).toEqual([
      ['140', 'wheelbase: long'],
      ["vehicle maker's figure", 'wheelbase: short and lockers: fitted'],
      ['130', 'wheelbase: short and lockers: none'],
    ]);
    expect(stepOf(guide, '1.1').callouts.filter(({ sort }) => sort === 'torque')).toHaveLength(3);
    const long = await printedOf(
      guideOf(
        `- { text: Nuts., do: [{ torque: front-wheel.nut, to: [{ when: { wheelbase: long }, is: 140 N·m }, { is: 120 N·m }] }] }`,
      ),
      { variant: { wheelbase: 'long' } },
    );
    expect(rowsOf(long.lists.torque).map((row) => [row['newton-metres'], row.when])).toEqual([
      ['140', undefined],
    ]);
  });

  test('says where nobody knows a figure', async () => {
    const guide = await printedOf(guideOf(`- { text: Nuts., do: [{ torque: front-wheel.cap }] }`), {
      files: {
        'moorhen.vehicle.yaml':
          'kitproof: vehicle/1\nname: Moorhen\nparts: { front-wheel: { kind: wheel, joints: { cap: {} } } }\n',
      },
    });
    expect(rowsOf(guide.lists.torque).map((row) => row['newton-metres'])).toEqual(['no figure']);
  });
});

describe('both units', () => {
  test('leave figures as they were written, and convert the others as a wrench can be set', () => {
    expect(torque('90 N·m')).toEqual({ metric: '90 N·m', imperial: '66 lbf·ft' });
    expect(torque('66 lb-ft')).toEqual({ metric: '89 N·m', imperial: '66 lbf·ft' });
    expect(torque('108-136 Nm (80-100 lbf·ft)')).toEqual({
      metric: '108–136 N·m',
      imperial: '80–100 lbf·ft',
    });
    expect(torque('80 lbf·ft (108 N·m)')).toEqual({ metric: '108 N·m', imperial: '80 lbf·ft' });
    expect(torque('71 lbf·in')).toEqual({ metric: '8 N·m', imperial: '71 lbf·in' });
    expect(torque('4 kgf·m')).toEqual({ metric: '39 N·m', imperial: '29 lbf·ft' });
  });

  test('agree with the pairs that published manuals print, within the larger of 1 N·m and 1 %', () => {
    expect(printedPairs.length).toBeGreaterThan(20);
    const ends = printedPairs.flatMap(([, low, high, lowMetres, highMetres]) => [
      { feet: low, metres: lowMetres },
      { feet: high, metres: highMetres },
    ]);
    for (const { feet, metres } of ends) {
      const printed = Number.parseFloat(torque(`${feet} lbf·ft`).metric);
      expect(Math.abs(printed - metres)).toBeLessThanOrEqual(Math.max(1, metres * 0.01));
    }
  });
});
