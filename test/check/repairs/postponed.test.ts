import { expect, it } from 'vitest';
import { fixesOf } from './support';

const VEHICLE = `
  parts:
    rear-axle: { kind: live-axle }
    rear-bar: { kind: track-bar, mass: 6 kg, joins: [frame, rear-axle], joints: { frame-bolt: { torque: 120 N·m } } }
`;

it('a bushed joint is only snug in the air, and gets its torque on the wheels', async () => {
  const fixes = await fixesOf('torque-off-ride-height', {
    vehicle: VEHICLE,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ remove: rear-bar.frame-bolt }]
      - text: Put it back.
        do:
          - torque: rear-bar.frame-bolt # mind the flag
            to: 120 N·m
          - check: rear-bar
      - do: [{ lower: vehicle }]
    `,
  });
  const fix = fixes.find(({ title }) => title.startsWith('Only snug'))!;
  expect(fix.title).toBe(
    'Only snug the frame bolt of the rear bar here, and tighten it later (a draft step)',
  );
  expect(fix.text).toContain(
    '          - snug: rear-bar.frame-bolt # mind the flag\n          - check: rear-bar\n',
  );
  expect(fix.text).toMatch(/lower: vehicle[\s\S]*- torque: rear-bar\.frame-bolt\n +to: 120 N·m\n/);
});
