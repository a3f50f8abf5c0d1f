import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    cover: { kind: bracket, mass: 1 kg, joins: [frame] }
    plain: { kind: bracket, mass: 1 kg, joins: [frame] }
  lines:
    old-hose: { kind: brake-hose, spans: [frame, body] }
`;
const KIT = `
  parts:
    new-cover: { replaces: cover }
  lines:
    new-hose: { kind: brake-hose, replaces: old-hose }
`;

it('what another part has taken the place of is scrapped, and does not come back', async () => {
  const steps = '- do: [{ remove: cover }]\n- do: [{ fit: new-cover }]\n';
  expect(titles(await fixesOf('left-off', { vehicle: VEHICLE, kit: KIT, steps }))).toEqual([
    'Scrap the cover later (a draft step)',
  ]);
});

it('what nothing replaces comes back, and is not scrapped', async () => {
  const steps = '- do: [{ remove: plain }]\n';
  expect(titles(await fixesOf('left-off', { vehicle: VEHICLE, steps }))).toEqual([
    'Fit the plain later (a draft step)',
  ]);
});

it('an old hose is not connected again beside the new one', async () => {
  const steps = `
    - do: [{ disconnect: old-hose }]
    - do: [{ route: new-hose }, { connect: new-hose }, { bleed: new-hose }, { check: new-hose }]
  `;
  for (const rule of ['left-disconnected', 'left-unchecked']) {
    const fixes = await fixesOf(rule, { vehicle: VEHICLE, kit: KIT, steps }).catch(() => []);
    expect(titles(fixes).join()).not.toMatch(/Connect the old hose|Check the old hose/);
  }
});

it('a new hose with one end open is not scrapped', async () => {
  const steps = `
    - do: [{ disconnect: old-hose }, { discard: old-hose }]
    - do: [{ route: new-hose }, { connect: new-hose, end: a }, { bleed: new-hose }, { check: new-hose }]
  `;
  const fixes = await fixesOf('bleed-only-a-closed-line', {
    vehicle: VEHICLE.replace('spans: [frame, body] }', 'ends: [a, b], spans: [frame, body] }'),
    kit: KIT,
    steps,
  });
  expect(titles(fixes).join()).not.toContain('Scrap');
});
