import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  traits: { lockers: [none, fitted] }
  parts:
    rear-axle: { kind: live-axle }
    bracket: { kind: bracket, sided: true, mass: 2 kg, joins: [frame], joints: { bolt: { torque: 22 N·m } } }
    mast: { kind: bracket, mass: 20 kg, joins: [frame], joints: { bolt: { torque: 50 N·m } } }
`;

it('a part that is bolted on is unbolted', async () => {
  const fixes = await fixesOf('loosen-before-remove', {
    vehicle: VEHICLE,
    steps: `
      - do:
          - remove: bracket
      - do: [{ bolt-up: bracket }, { torque: bracket.bolt }]
    `,
  });
  expect(titles(fixes)).toEqual([
    'Unbolt it (unbolt instead of remove)',
    'Take out the bolt of the bracket first (a draft step)',
  ]);
  expect(fixes[0]!.added).toEqual(['- unbolt: bracket']);
});

it('what carries is let down', async () => {
  const [fix] = await fixesOf('unsupport-carrying', {
    vehicle: VEHICLE,
    steps: '- do: [{ chock: front }, { raise: rear-axle, with: trolley-jack }, { unsupport: rear-axle }]\n',
  });
  expect(fix!.added).toEqual([
    '- do: [{ chock: front }, { raise: rear-axle, with: trolley-jack }, { lower: rear-axle }]',
  ]);
});

it('a second person helps', async () => {
  const [fix] = await fixesOf('heavy-part-held', {
    vehicle: VEHICLE,
    steps: `
      - text: Off and on.
        do: [{ unbolt: mast }, { bolt-up: mast }, { torque: mast.bolt }]
    `,
  });
  expect(fix!.title).toBe('Do this step with two people');
  expect(fix!.text).toContain('- text: Off and on.\n        people: 2\n        do:');
});

it('work that was narrowed to one side, or to some variants, is done on all', async () => {
  const side = await fixesOf('left-loose', {
    vehicle: VEHICLE,
    steps: '- do: [{ loosen: bracket.bolt }]\n- do: [{ torque: bracket.bolt, side: left }]\n',
  });
  expect(side[0]).toMatchObject({
    title: 'Do torque in step 1.2 on both sides',
    added: ['- do: [{ torque: bracket.bolt }]'],
  });
  const variant = await fixesOf('left-loose', {
    vehicle: VEHICLE,
    steps: '- do: [{ loosen: mast.bolt }]\n- when: { lockers: fitted }\n  do: [{ torque: mast.bolt }]\n',
  });
  expect(variant[0]).toMatchObject({ title: 'Do step 1.2 in every variant', removed: expect.any(Array) });
  expect(variant[0]!.text).not.toContain('when:');
});

it('an operation that does nothing is left out, with its step where it is alone', async () => {
  const [fix] = await fixesOf('undo-undone', {
    vehicle: VEHICLE,
    steps: `
      - do: [{ remove: mast.bolt }]
      - do: [{ remove: mast.bolt }]
      - do: [{ torque: mast.bolt }]
    `,
  });
  expect(fix).toMatchObject({
    title: 'Leave this operation out',
    removed: ['- do: [{ remove: mast.bolt }]'],
  });
});

it('a rule about a qualifier has it changed', async () => {
  const fixes = await fixesOf('no-wheel-nuts-in-turn', {
    vehicle: `
      parts:
        rear-axle: { kind: live-axle }
        rear-wheel: { kind: wheel, joins: [rear-axle], joints: { nut: { bolts: 5, torque: 120 N·m } } }
    `,
    steps: '- do: [{ torque: rear-wheel.nut, pattern: in-turn }]\n',
  });
  expect(titles(fixes)).toEqual(['Tighten crosswise (pattern: star)', 'Take out pattern']);
});
