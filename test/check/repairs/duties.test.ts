import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    rear-axle: { kind: live-axle }
    rear-wheel: { kind: wheel, joins: [rear-axle], joints: { nut: { bolts: 5, torque: 120 N·m } } }
`;
const RULES = { 'wheel-recheck-handed-over': 'on' };
const STEPS = '- do: [{ loosen: rear-wheel.nut }]\n- do: [{ torque: rear-wheel.nut }]\n';

it('a check that is due on the road is handed over', async () => {
  const fixes = await fixesOf('wheel-recheck-handed-over', { vehicle: VEHICLE, rules: RULES, steps: STEPS });
  const handed = fixes.find(({ title }) => title.startsWith('Hand over'))!;
  expect(handed.title).toBe('Hand over a check of the nut of the rear wheel after 80 km (owes)');
  expect(handed.added).toEqual(['owes: [{ check: rear-wheel.nut, after: 80 km }]']);
  expect(handed.text).toContain('vehicle: m.vehicle.yaml\nowes: [');
});

it('beside what is handed over already', async () => {
  const head = 'owes:\n  - { check: paint, before: road } # first';
  const fixes = await fixesOf('wheel-recheck-handed-over', {
    vehicle: VEHICLE,
    rules: RULES,
    steps: STEPS,
    head,
  });
  expect(fixes.flatMap(({ added }) => added)).toContain('- { check: rear-wheel.nut, after: 80 km }');
});

it('what a guide does not leave so is not said', async () => {
  const fixes = await fixesOf('leaves-not-so', {
    vehicle: VEHICLE,
    head: 'leaves: { rear-wheel: "off" } # for later',
    steps: STEPS,
  });
  expect(titles(fixes)).toEqual(['Take rear-wheel out of what the guide leaves']);
  expect(fixes[0]!.text).not.toContain('leaves');
});
