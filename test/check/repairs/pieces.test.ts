import { expect, it } from 'vitest';
import { fixesOf, titles } from './support';

const VEHICLE = `
  parts:
    link: { kind: drag-link, mass: 2 kg, joins: [frame], joints: { end: { nut: self-locking, torque: 60 N·m }, ball: { nut: slotted, torque: 50 N·m } } }
`;
const HEAD = 'owes: [{ check: wheel-alignment, before: road }]';

it('a locking nut is new where its joint gets its torque', async () => {
  const [fix] = await fixesOf('new-locking-nut', {
    vehicle: VEHICLE,
    head: HEAD,
    steps: `
      - do: [{ remove: link.end }]
      - do:
          - torque: link.end # firmly
    `,
  });
  expect(fix!.title).toBe('Take a new nut (new: [nut])');
  expect(fix!.added).toEqual(['new: [nut]']);
  expect(fix!.text).toContain('- torque: link.end # firmly\n            new: [nut]\n');
});

it('a pin comes with the torque, or as work of its own', async () => {
  const fixes = await fixesOf('left-without-pin', {
    vehicle: VEHICLE,
    head: HEAD,
    steps: `
      - do: [{ remove: link.ball }]
      - do: [{ torque: link.ball }]
    `,
  });
  expect(titles(fixes)).toEqual([
    'Put a new pin in after the torque (new: [pin])',
    'Renew the pin of the ball of the drag link later (a draft step)'.replace('the drag link', 'the link'),
  ]);
});

it('a pin that came before the torque comes with it', async () => {
  const fixes = await fixesOf('pin-after-torque', {
    vehicle: VEHICLE,
    head: HEAD,
    steps: `
      - do: [{ remove: link.ball }]
      - do: [{ snug: link.ball }, { renew: link.ball.pin }]
      - do: [{ torque: link.ball }]
    `,
  });
  expect(fixes[0]!.removed).toEqual([
    '- do: [{ snug: link.ball }, { renew: link.ball.pin }]',
    '- do: [{ torque: link.ball }]',
  ]);
  expect(fixes[0]!.added).toEqual([
    '- do: [{ snug: link.ball }]',
    '- do: [{ torque: link.ball, new: [pin] }]',
  ]);
});
