import { expect, it } from 'vitest';
import { fixesOf } from './support';

it('a part goes on right behind what it sits on, before the wheel hides it', async () => {
  const [fix] = await fixesOf('left-off', {
    vehicle: `
      parts:
        front-axle: { kind: live-axle }
        front-wheel: { kind: wheel, sided: false, joins: [front-axle], joints: { nut: { torque: 130 N·m } } }
        carrier: { kind: caliper-carrier, sided: false, mass: 2 kg, joins: [front-axle], joints: { bolt: { torque: 120 N·m } } }
        pads: { kind: pads, sided: false, mass: 1 kg, joins: [carrier] }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }, { unbolt: front-wheel }]
      - do: [{ remove: pads }]
      - do: [{ unbolt: carrier }]
      - do: [{ bolt-up: carrier }, { torque: carrier.bolt }]
      - do: [{ check: front-axle }]
      - do: [{ bolt-up: front-wheel }, { snug: front-wheel.nut }]
      - do: [{ lower: vehicle }, { torque: front-wheel.nut }]
    `,
  });
  expect(fix!.text).toMatch(/torque: carrier.bolt[\s\S]*fit: pads[\s\S]*check: front-axle/);
});

it('what sits on something that never came off goes on before the wheel does', async () => {
  const [fix] = await fixesOf('left-off', {
    vehicle: `
      parts:
        front-axle: { kind: live-axle }
        front-wheel: { kind: wheel, sided: false, joins: [front-axle], joints: { nut: { torque: 130 N·m } } }
        bracket: { kind: hose-bracket, sided: false, mass: 0.2 kg, joins: [front-axle], joints: { bolt: { torque: 22 N·m } } }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }, { unbolt: front-wheel }]
      - do: [{ unbolt: bracket }]
      - do: [{ check: front-axle }]
      - do: [{ bolt-up: front-wheel }, { snug: front-wheel.nut }]
      - do: [{ lower: vehicle }, { torque: front-wheel.nut }]
    `,
  });
  expect(fix!.text).toMatch(/check: front-axle[\s\S]*bolt-up: bracket[\s\S]*bolt-up: front-wheel/);
});

it('a spring is let go on the bench, when the nut that keeps it is tight', async () => {
  const [fix] = await fixesOf('left-compressed', {
    vehicle: `
      parts:
        strut: { kind: strut, sided: false, mass: 6 kg, joins: [frame], joints: { top-nut: { torque: 28 N·m } } }
        coil: { kind: coil-spring, sided: false, mass: 3 kg, joins: [strut] }
        top-mount: { kind: strut-mount, sided: false, mass: 1 kg, joins: [strut], joints: { rod-nut: { holds-spring: true, torque: 65 N·m } } }
    `,
    steps: `
      - do: [{ unbolt: strut }]
      - do: [{ compress: coil, with: spring-compressor }]
      - do: [{ unbolt: top-mount }, { bolt-up: top-mount }]
      - do: [{ torque: top-mount.rod-nut }]
      - do: [{ bolt-up: strut }, { torque: strut.top-nut }]
      - do: [{ check: paint }]
    `,
  });
  expect(fix!.text).toMatch(/torque: top-mount.rod-nut[\s\S]*relax: coil[\s\S]*bolt-up: strut/);
});

it('a jack goes when the part that it bore is tight again', async () => {
  const [fix] = await fixesOf('left-supported', {
    vehicle: `
      parts:
        tank: { kind: fuel-tank, mass: 30 kg, joins: [frame], joints: { bolt: { torque: 45 N·m } } }
        plate: { kind: bracket, mass: 9 kg, joins: [frame], joints: { bolt: { torque: 50 N·m } } }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }, { unbolt: plate }]
      - do: [{ support: tank, with: gearbox-jack }, { loosen: tank.bolt }]
      - do: [{ torque: tank.bolt }]
      - do: [{ bolt-up: plate }, { torque: plate.bolt }]
      - do: [{ lower: vehicle }]
    `,
  });
  expect(fix!.text).toMatch(/torque: tank.bolt[\s\S]*unsupport: tank[\s\S]*bolt-up: plate/);
});
