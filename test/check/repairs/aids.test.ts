import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    gearbox: { kind: gearbox, mass: 700 kg, joins: [frame], joints: { bolt: { torque: 50 N·m } } }
    mast: { kind: bracket, mass: 80 kg, joins: [frame], joints: { bolt: { torque: 50 N·m } } }
`;

it('an aid that cannot is changed for one that can', async () => {
  const fixes = await fixesOf('aid-cannot', {
    vehicle: VEHICLE,
    steps: '- do: [{ support: mast, with: wheel-chocks }, { unsupport: mast }]\n',
  });
  expect(fixes.length).toBeGreaterThan(0);
  for (const { title } of fixes) expect(title).toMatch(/^Use .* instead$/);
  expect(fixes[0]!.removed).toEqual(['- do: [{ support: mast, with: wheel-chocks }, { unsupport: mast }]']);
});

it('an aid that is too weak is changed for one that bears the load', async () => {
  const fixes = await fixesOf('aid-overloaded', {
    vehicle: VEHICLE,
    steps: '- do: [{ support: gearbox, with: gearbox-jack }, { unsupport: gearbox }]\n',
  });
  expect(titles(fixes).join()).not.toContain('gearbox jack');
  expect(fixes.length).toBeGreaterThan(0);
});

it('the aid that the guide uses for the same, or takes away again, comes first', async () => {
  const steps = (last: string) => `
    - do: [{ unbolt: mast }, { bolt-up: mast }, { torque: mast.bolt }]
    - do: [{ ${last} }]
  `;
  const [used] = await fixesOf('heavy-part-held', {
    vehicle: VEHICLE,
    steps: steps('support: gearbox, with: lift-table }, { unsupport: gearbox'),
  });
  expect(used!.title).toContain('Support the mast with a lift table first');
});
