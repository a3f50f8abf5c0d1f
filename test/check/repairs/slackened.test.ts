import { expect, it } from 'vitest';
import { fixesOf } from './support';

it('a joint that must be slack on the ground is slackened before the lift', async () => {
  const [fix] = await fixesOf('loosen-first', {
    vehicle: `
      parts:
        front-axle: { kind: live-axle }
        front-hub: { kind: hub, sided: true, mass: 3 kg, joins: [front-axle], joints: { nut: { loosen-first: on-ground, torque: 200 N·m } } }
    `,
    steps: `
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ loosen: front-hub.nut }]
      - do: [{ lower: vehicle }]
      - do: [{ torque: front-hub.nut }]
    `,
  });
  expect(fix!.title).toMatch(/^Move “loosen front-hub\.nut” \(1\.2\) before “raise vehicle/);
  expect(fix!.text.indexOf('loosen')).toBeLessThan(fix!.text.indexOf('raise'));
});
