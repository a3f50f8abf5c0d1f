import { describe, expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    rear-axle: { kind: live-axle, limited-by: [] }
    bracket: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { torque: 22 N·m }, stud: { torque: 30 N·m } }, holes: { hole: { size: 9 mm } } }
    cover: { kind: bracket, sided: true, mass: 1 kg, joins: [frame] }
    bag: { kind: air-spring, sided: false, mass: 2 kg, joins: [frame, rear-axle], pressure: 1-3 bar }
    link: { kind: drag-link, mass: 2 kg, joins: [frame], ends: { taper: { seat: friction } } }
  lines:
    hose: { kind: brake-hose, spans: [frame, rear-axle] }
    plug: { kind: plug, spans: [frame, body] }
`;
const OWES = 'owes: [{ check: wheel-alignment, before: road }]';

describe('each debt is closed by its own operation', () => {
  it.each([
    ['left-loose', '{ loosen: bracket.bolt }', 'do: [{ torque: bracket.bolt }]'],
    ['left-off', '{ remove: cover, side: left }', 'do: [{ fit: cover, side: left }]'],
    ['left-disconnected', '{ disconnect: plug }', 'do: [{ connect: plug }]'],
    ['left-unclipped', '{ unclip: hose }', 'do: [{ clip: hose }]'],
    ['left-unseated', '{ free: link.taper }', 'do: [{ seat: link.taper }]'],
    ['left-unbled', '{ disconnect: hose }, { connect: hose }', 'do: [{ bleed: hose }, { check: hose }]'],
    ['left-unchecked', '{ disconnect: hose }, { connect: hose }, { bleed: hose }', 'do: [{ check: hose }]'],
    ['left-held', '{ hold: hose, with: wire }', 'do: [{ release: hose }]'],
    ['left-compressed', '{ compress: bag, with: spring-compressor }', 'do: [{ relax: bag }]'],
    [
      'left-supported',
      '{ support: bracket, with: lift-table }',
      'do: [{ unsupport: bracket, with: lift-table }]',
    ],
    ['left-raised', '{ raise: vehicle, with: two-post-lift }', 'do: [{ lower: vehicle }]'],
    ['left-isolated', '{ isolate: battery }', 'do: [{ restore: battery }]'],
    ['left-switched', '{ switch: parking-brake, to: service }', 'do: [{ switch: parking-brake, to: "on" }]'],
    ['left-drained', '{ drain: gearbox }', 'do: [{ fill: gearbox }]'],
    ['left-deflated', '{ deflate: bag }', 'do: [{ inflate: bag, to: 2 bar }]'],
    ['left-unprotected', '{ cut: bracket }, { deburr: bracket }', 'do: [{ coat: bracket }]'],
    ['left-pilot', '{ drill: bracket.hole, to: 5 mm }', 'do: [{ drill: bracket.hole, to: 9 mm }]'],
  ])('%s', async (rule, operations, closing) => {
    const steps = `- do: [${operations}]\n- do: [{ check: paint }]\n`;
    const fixes = await fixesOf(rule, { vehicle: VEHICLE, head: OWES, steps });
    expect(fixes.flatMap(({ added }) => added)).toContain(closing);
  });
});

it('joints of one part that were undone together are tightened together', async () => {
  const fixes = await fixesOf('left-loose', {
    vehicle: VEHICLE,
    steps: '- do: [{ loosen: bracket }]\n- do: [{ check: paint }]\n',
  });
  expect(titles(fixes)[0]).toBe('Tighten the bracket later (a draft step)');
});

it('what a kit replaces is scrapped first, what it does not comes back first', async () => {
  const kit = `
    parts:
      new-cover: { replaces: cover }
  `;
  const steps = '- do: [{ remove: cover }]\n- do: [{ fit: new-cover }]\n';
  const [scrap] = await fixesOf('left-off', { vehicle: VEHICLE, kit, steps });
  expect(scrap).toMatchObject({ title: 'Scrap the cover later (a draft step)' });
  const [back] = await fixesOf('left-off', { vehicle: VEHICLE, steps: '- do: [{ remove: cover }]\n' });
  expect(back!.title).toBe('Fit the cover later (a draft step)');
});

it('a debt is closed before the vehicle comes down, and what undoes a help not right behind it', async () => {
  const [fix] = await fixesOf('left-supported', {
    vehicle: VEHICLE,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ support: bracket, with: lift-table }]
      - do: [{ check: paint }]
      - do: [{ lower: vehicle }]
    `,
  });
  expect(fix!.text).toMatch(/check: paint[\s\S]*unsupport: bracket[\s\S]*lower: vehicle/);
});
