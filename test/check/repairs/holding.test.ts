import { describe, expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const TANK = (mass: string) => `
  parts:
    tank: { kind: fuel-tank, mass: ${mass}, joins: [frame], joints: { strap-bolt: { torque: 45 N·m } } }
    gearbox: { kind: gearbox, mass: 62 kg, joins: [frame], joints: { bolt: { torque: 50 N·m } } }
    engine: { kind: engine, mass: 180 kg, joins: [frame] }
  lines:
    filler: { kind: hose, spans: [frame, tank] }
`;
const DOWN = () => `
  - do: [{ raise: vehicle, with: two-post-lift }]
  - do: [{ remove: tank.strap-bolt }]
  - do: [{ start: tank.strap-bolt }, { torque: tank.strap-bolt }]
  - do: [{ lower: vehicle }]
`;

describe('a part that would hang on its hose', () => {
  it('is carried by a jack, never by a lift, and by no wire where it is heavy', async () => {
    const heavy = titles(await fixesOf('heavy-part-held', { vehicle: TANK('40 kg'), steps: DOWN() })).join();
    expect(heavy).toMatch(/Support the tank with a lift table first/);
    expect(heavy).not.toMatch(/post lift|wire|sling/);
    const middling = titles(
      await fixesOf('part-hangs-on-line', { vehicle: TANK('10 kg'), steps: DOWN() }),
    ).join();
    expect(middling).toContain('Support the tank with a pole jack first');
    expect(middling).not.toMatch(/post lift|wire/);
  });

  it('hangs on a wire where it is light', async () => {
    const light = await fixesOf('part-hangs-on-line', { vehicle: TANK('4 kg'), steps: DOWN() });
    expect(titles(light).join()).toContain('Hold the tank with wire first');
  });
});

it('what is made for an engine holds no gearbox', async () => {
  const [fix] = await fixesOf('heavy-part-held', {
    vehicle: TANK('4 kg'),
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ support: engine, with: engine-support-bar }]
      - do: [{ unbolt: gearbox }]
      - do: [{ bolt-up: gearbox }, { torque: gearbox.bolt }]
      - do: [{ unsupport: engine }, { lower: vehicle }]
    `,
  });
  expect(fix!.title).toMatch(/^Support the gearbox with a gearbox jack first/);
});

it('an axle that is to come down stands on a jack, not on stands that the vehicle has', async () => {
  const fixes = await fixesOf('support-axle-before-shock-removal', {
    vehicle: `
      parts:
        rear-axle: { kind: live-axle, drop: 150 mm, limited-by: [rear-shock] }
        rear-shock: { kind: shock, sided: false, mass: 3 kg, joins: [frame, rear-axle], joints: { lower-bolt: { bushed: false, torque: 90 N·m } } }
    `,
    steps: `
      - do: [{ chock: front }]
      - do: [{ raise: rear, with: trolley-jack }, { support: rear, with: frame-stands }, { lower: rear, with: trolley-jack, onto: frame-stands }]
      - do: [{ remove: rear-shock.lower-bolt }]
      - do: [{ torque: rear-shock.lower-bolt }]
      - do: [{ raise: rear, with: trolley-jack }, { unsupport: rear, with: frame-stands }, { lower: rear }, { unchock: front }]
    `,
  });
  expect(titles(fixes).join()).toContain('Support the rear axle with a trolley jack first');
  expect(titles(fixes).join()).not.toContain('stands');
});
