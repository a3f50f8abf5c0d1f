import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    bracket: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { torque: 22 N·m }, nut: {} }, holes: { hole: { size: 9 mm } } }
    bag: { kind: air-spring, mass: 2 kg, joins: [frame], pressure: 0.7-7 bar }
`;

it('a torque that differs gets the figure of the data, or leaves it to them', async () => {
  const fixes = await fixesOf('torque-differs', {
    vehicle: VEHICLE,
    steps: `
      - do:
          - torque: bracket.bolt   # firmly
            to: "30 N·m"
    `,
  });
  expect(titles(fixes)).toEqual(['Write 22 N·m, as the data have it', 'Leave the figure to the data']);
  expect(fixes[0]!.added).toEqual(['to: "22 N·m"']);
  expect(fixes[1]!.removed).toEqual(['to: "30 N·m"']);
});

it('a torque without a figure is the maker’s', async () => {
  const [fix] = await fixesOf('torque-without-figure', {
    vehicle: VEHICLE,
    steps: '- do: [{ torque: bracket.nut }]\n',
  });
  expect(fix!.added).toEqual(['- do: [{ torque: bracket.nut, to: maker }]']);
});

it('stages rise', async () => {
  const [fix] = await fixesOf('stages-not-rising', {
    vehicle: VEHICLE,
    steps: '- do: [{ torque: bracket.bolt, stages: [15 N·m, 10 N·m, 22 N·m] }]\n',
  });
  expect(fix!.added).toEqual(['- do: [{ torque: bracket.bolt, stages: [10 N·m, 15 N·m, 22 N·m] }]']);
});

it('stages rise to the figure of the data', async () => {
  const staged = async (stages: string) =>
    (
      await fixesOf('torque-differs', {
        vehicle: VEHICLE,
        steps: `- do: [{ torque: bracket.bolt, stages: [${stages}] }]\n`,
      })
    ).flatMap(({ added }) => added);
  const written = (stages: string) => [`- do: [{ torque: bracket.bolt, stages: [${stages}] }]`];
  expect(await staged('22 N·m, 12 N·m')).toEqual(written('12 N·m, 22 N·m'));
  expect(await staged('10 N·m, 15 N·m, 30 N·m')).toEqual(written('10 N·m, 15 N·m, 22 N·m'));
});

it('a hole gets its size, a bag no more air than it takes', async () => {
  const [size] = await fixesOf('drilled-oversize', {
    vehicle: VEHICLE,
    steps: '- do: [{ drill: bracket.hole, to: 12 mm }, { deburr: bracket.hole }, { coat: bracket.hole }]\n',
  });
  expect(size!.title).toBe('Write 9 mm, the size of the hole');
  const [air] = await fixesOf('over-inflated', {
    vehicle: VEHICLE,
    steps: '- do: [{ inflate: bag, to: 9 bar }]\n',
  });
  expect(air!.added).toEqual(['- do: [{ inflate: bag, to: 7 bar }]']);
});

it('an axle comes down as far as its spring needs', async () => {
  const fixes = await fixesOf('spring-loaded', {
    vehicle: `
      parts:
        rear-axle: { kind: live-axle, drop: 200 mm, limited-by: [rear-strap] }
        rear-strap: { kind: limit-strap, sided: false, mass: 1 kg, joins: [frame, rear-axle], joints: { bolt: { torque: 40 N·m } } }
        rear-coil: { kind: coil-spring, sided: false, mass: 4 kg, joins: [frame, rear-axle], free-at: 100 mm }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ support: rear-axle, with: pole-jacks }]
      - do: [{ unbolt: rear-strap }]
      - do: [{ lower: rear-axle, by: 60 mm }]
      - do: [{ remove: rear-coil }, { fit: rear-coil }]
      - do: [{ raise: rear-axle }, { bolt-up: rear-strap }, { torque: rear-strap.bolt }]
      - do: [{ unsupport: rear-axle }, { lower: vehicle }]
    `,
  });
  expect(titles(fixes)).toContain('Let the rear axle down by 100 mm');
});
