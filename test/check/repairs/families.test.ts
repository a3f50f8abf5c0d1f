import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    starter: { kind: starter, mass: 4 kg, joins: [frame], joints: { bolt: { torque: 40 N·m } } }
    front-disc: { kind: disc, sided: false, joins: [frame] }
    rod-end: { kind: tie-rod-end, sided: false, mass: 1 kg, joins: [frame], joints: { jam-nut: { torque: 60 N·m } } }
  lines:
    fuel-hose: { kind: fuel-line, spans: [frame, body] }
    heater-hose: { kind: coolant-hose, spans: [frame, body] }
`;
const OFF_AND_ON = '- do: [{ unbolt: starter }]\n- do: [{ bolt-up: starter }, { torque: starter.bolt }]\n';

it('needs: the state is brought about before, and ended later', async () => {
  const [fix] = await fixesOf('battery-off-before-starter-or-alternator', {
    vehicle: VEHICLE,
    steps: OFF_AND_ON,
  });
  expect(fix!.title).toBe(
    'Disconnect the battery first, and connect the battery again later (2 draft steps)',
  );
  expect(fix!.added).toEqual([
    '- text: Take the negative lead off the battery.',
    'draft: true',
    'do: [{ isolate: battery }]',
    '- text: Connect the battery again.',
    'draft: true',
    'do: [{ restore: battery }]',
  ]);
});

it('needs: in the variants of the step that asks for it', async () => {
  const [fix] = await fixesOf('battery-off-before-starter-or-alternator', {
    vehicle: `traits: { engine: [petrol, diesel] }\n${VEHICLE}`.replace('kind: starter,', 'kind: starter,'),
    steps: `
      - when: { engine: diesel }
        do: [{ unbolt: starter }, { bolt-up: starter }, { torque: starter.bolt }]
    `,
  });
  expect(fix!.text.split('when: { engine: diesel }')).toHaveLength(4);
});

it('never-while: what is open is closed before', async () => {
  const [fix] = await fixesOf('fuel-closed-before-pressure', {
    vehicle: VEHICLE,
    steps: `
      - do: [{ isolate: fuel-pressure }, { disconnect: fuel-hose }]
      - do: [{ restore: fuel-pressure }]
      - do: [{ connect: fuel-hose }, { check: fuel-hose }]
    `,
  });
  expect(fix!.title).toMatch(/^Move /);
});

it('never-while: what is never right is left out', async () => {
  const fixes = await fixesOf('no-grease-on-friction-faces', {
    vehicle: VEHICLE,
    steps: '- do: [{ apply: grease, to: front-disc }, { check: front-disc }]\n',
  });
  expect(titles(fixes)).toEqual(['Leave out this apply of step 1.1']);
});

it('first: an operation before, by the words of the rule', async () => {
  const [fix] = await fixesOf('threads-recorded-before-rod-end-comes-off', {
    vehicle: VEHICLE,
    head: 'owes: [{ check: wheel-alignment, before: road }]',
    steps: '- do: [{ unbolt: rod-end }]\n- do: [{ bolt-up: rod-end }, { torque: rod-end.jam-nut }]\n',
  });
  expect(fix!.added).toContain('do: [{ record: exposed-threads }]');
});

it('later: by the end, or handed over', async () => {
  const fixes = await fixesOf('alignment-after-arms-or-steering', {
    vehicle: VEHICLE,
    steps: '- do: [{ loosen: rod-end.jam-nut }, { torque: rod-end.jam-nut }]\n',
  });
  expect(fixes[0]!.added[0]).toBe(
    "- text: Check the wheel alignment, and set it to the vehicle maker's figures.",
  );
  const coolant = await fixesOf('coolant-level-after-opening', {
    vehicle: VEHICLE,
    steps: '- do: [{ disconnect: heater-hose }]\n- do: [{ connect: heater-hose }]\n',
  });
  expect(coolant[0]!.added).toEqual([
    '- text: Check the coolant level, and top it up.',
    'draft: true',
    'do: [{ check: coolant-level }]',
  ]);
});

it('next: right behind, in the same step if need be', async () => {
  const [fix] = await fixesOf('plug-open-line', {
    vehicle: 'lines: { brake-pipe: { kind: brake-pipe, spans: [frame, body] } }\n',
    rules: { 'plug-open-line': 'on' },
    steps: `
      - do:
          - disconnect: brake-pipe
      - do: [{ check: brake-pipe }]
      - do: [{ connect: brake-pipe }, { bleed: brake-pipe }, { check: brake-pipe }]
    `,
  });
  expect(fix!.title).toMatch(/^Hold the brake pipe with a bung right after/);
});
