import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

it('what holds an axle is put there before its last limiter goes, and goes before the vehicle comes down', async () => {
  const [fix] = await fixesOf('support-axle-before-shock-removal', {
    vehicle: `
      parts:
        front-axle: { kind: live-axle, drop: 150 mm, limited-by: [front-shock] }
        front-shock: { kind: shock, sided: false, mass: 3 kg, joins: [frame, front-axle], joints: { lower-bolt: { bushed: false, torque: 90 N·m } } }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]

      # The bolts
      # come out.
      - text: Out.
        do: [{ remove: front-shock.lower-bolt }]

      - do: [{ torque: front-shock.lower-bolt }]

      - do: [{ lower: vehicle }]
    `,
  });
  expect(fix!.title).toBe(
    'Support the front axle with pole jacks first, and take the pole jacks away from under the front axle later (2 draft steps)',
  );
  expect(fix!.removed).toEqual([]);
  expect(fix!.text).toContain(`
      - text: Support the front axle with pole jacks.
        draft: true
        do: [{ support: front-axle, with: pole-jacks }]

      # The bolts
      # come out.
      - text: Out.
`);
});

it('chocks go to the other end', async () => {
  const [fix] = await fixesOf('chock-before-jack', {
    steps: '- do: [{ raise: front, with: trolley-jack }]\n- do: [{ lower: front }]\n',
  });
  expect(fix).toMatchObject({
    title: 'Chock the rear wheels first (a draft step)',
    added: ['- text: Chock the wheels that stay on the ground.', 'draft: true', 'do: [{ chock: rear }]'],
  });
});

it('what is at the wrong place is moved, with its comments', async () => {
  const fixes = await fixesOf('reach', {
    vehicle: `
      parts:
        tank: { kind: bracket, mass: 2 kg, joins: [frame], behind: [liner], joints: { bolt: { torque: 8 N·m } } }
        liner: { kind: bracket, mass: 1 kg, joins: [frame], joints: { screw: { torque: 3 N·m } } }
    `,
    steps: `
      - do: [{ unbolt: liner }]
      # Liner back.
      - do: [{ bolt-up: liner }, { torque: liner.screw }]
      - do: [{ unbolt: tank }]
      - do: [{ bolt-up: tank }, { torque: tank.bolt }]
    `,
  });
  expect(fixes[0]!.title).toBe(
    'Move “bolt-up liner; torque liner.screw to 3…” (1.2) behind “bolt-up tank; torque tank.bolt to 8 N·m” (1.4)',
  );
  expect(
    fixes[0]!.text.endsWith(
      'torque: tank.bolt }]\n      # Liner back.\n      - do: [{ bolt-up: liner }, { torque: liner.screw }]\n',
    ),
  ).toBe(true);
});

it('work between two operations of a step goes between them, and marks the step', async () => {
  const fixes = await fixesOf('recorded-first', {
    steps: `
      - text: Length, then set it.
        do:
          - check: rod
          - set: rod-length
            to: recorded
    `,
  });
  expect(titles(fixes)).toEqual(['Record the rod length first (a draft step)']);
});

it('a bag under pressure is let go of its air, not clamped together', async () => {
  const [fix] = await fixesOf('spring-loaded', {
    vehicle: `
      parts:
        rear-axle: { kind: live-axle, drop: 200 mm, limited-by: [rear-strap] }
        rear-strap: { kind: limit-strap, sided: false, mass: 1 kg, joins: [frame, rear-axle], joints: { bolt: { torque: 40 N·m } } }
        rear-bag: { kind: air-spring, sided: false, mass: 2 kg, joins: [frame, rear-axle], pressure: 1-3 bar }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ remove: rear-bag }, { fit: rear-bag }]
      - do: [{ lower: vehicle }]
    `,
  });
  expect(fix!.title).toMatch(/^Deflate the rear bag first, and inflate the rear bag to 1 bar later/);
});

it('the nut of a taper is slackened before the taper is parted', async () => {
  const [fix] = await fixesOf('nut-still-on', {
    vehicle: `
      parts:
        rod: { kind: bracket, mass: 2 kg, joins: [frame], joints: { arm-nut: { torque: 40 N·m } }, ends: { arm-taper: { seat: taper } } }
    `,
    steps: `
      - do: [{ free: rod.arm-taper, with: ball-joint-puller }]
      - do: [{ seat: rod.arm-taper }]
    `,
  });
  expect(fix!.text).toContain('loosen: rod.arm-nut');
});

it('air is let out before the rim is parted', async () => {
  const [fix] = await fixesOf('air-out-before-rim', {
    vehicle: `
      parts:
        rear-axle: { kind: live-axle }
        rear-wheel: { kind: two-piece-wheel, sided: false, mass: 40 kg, joins: [rear-axle] }
        rear-rim-half: { kind: rim, mass: 12 kg, joins: [rear-wheel], joints: { rim-nut: { bolts: 8, torque: 170 N·m } } }
    `,
    steps: `
      - do: [{ loosen: rear-rim-half.rim-nut }]
      - do: [{ torque: rear-rim-half.rim-nut }]
    `,
  });
  expect(fix!.text).toContain('deflate: rear-wheel');
});

it('a hole is not drilled once more', async () => {
  const [fix] = await fixesOf('drilled-already', {
    vehicle: `
      parts:
        plate: { kind: bracket, joins: [body], holes: { hole: { size: 9 mm } } }
    `,
    steps: `
      - do: [{ mark: plate.hole }, { drill: plate.hole, to: 9 mm }]
      - do: [{ drill: plate.hole, to: 9 mm }, { deburr: plate.hole }, { coat: plate.hole }]
    `,
  });
  expect(fix!.text).toContain('- do: [{ deburr: plate.hole }');
});

it('operations of one step change places where that is all; what the guide put on is not taken off again', async () => {
  const fixes = await fixesOf('reach', {
    vehicle: `
      parts:
        plate: { kind: bracket, mass: 1 kg, joins: [frame], inside: [cover] }
        cover: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { torque: 25 N·m } } }
    `,
    steps: `
      - do: [{ unbolt: cover }, { remove: plate }]
      - do: [{ bolt-up: cover }, { fit: plate }, { torque: cover.bolt }]
    `,
  });
  expect(titles(fixes)[0]).toBe('Do “bolt-up cover” after “fit plate”');
  expect(fixes[0]!.text).toContain('- do: [{ fit: plate }, { bolt-up: cover }, { torque: cover.bolt }]');
  expect(titles(fixes).join()).not.toContain('Unbolt');
});

it('nothing is taken away from under a vehicle for the sake of its ride height', async () => {
  const fixes = await fixesOf('torque-off-ride-height', {
    vehicle: `
      parts:
        rear-axle: { kind: live-axle }
        rear-wheel: { kind: wheel, sided: false, joins: [rear-axle] }
        rear-arm: { kind: trailing-arm, sided: false, mass: 5 kg, joins: [frame, rear-axle], joints: { bolt: { torque: 160 N·m } } }
    `,
    steps: `
      - do: [{ chock: front }, { raise: rear, with: trolley-jack }, { support: rear, with: frame-stands }, { lower: rear, with: trolley-jack, onto: frame-stands }]
      - do: [{ support: rear-axle, with: trolley-jack }]
      - do: [{ loosen: rear-arm.bolt }, { torque: rear-arm.bolt }]
      - do: [{ unsupport: rear-axle }]
      - do: [{ raise: rear, with: trolley-jack }, { unsupport: rear, with: frame-stands }, { lower: rear }, { unchock: front }]
    `,
  });
  expect(titles(fixes).join()).not.toMatch(/Take the frame stands/);
});
