/** Lines against the travel of what they span, with what a kit makes of it. Figures worked out by right-angled triangles. */

import { describe, expect, it } from 'vitest';
import { checkFiles } from '../support/engine';

interface Job {
  readonly axle?: string;
  readonly bump?: string;
  readonly hose?: string;
  readonly kit?: string;
  readonly covers?: string;
}

async function told({ axle = '', bump = '80 mm', hose = '', kit = '', covers = '' }: Job): Promise<string[]> {
  const { findings } = await checkFiles({
    'v.vehicle.yaml': `kitproof: vehicle/1\nname: Moorhen\ntraits: { trim: [plain, sport] }
parts:
  front-axle: { kind: live-axle, droop: 90 mm, bump: ${bump}${axle} }
  front-shock: { kind: shock, joins: [frame, front-axle], joints: { bolt: { torque: 90 N·m } } }
  front-strap: { kind: bracket, joins: [frame, front-axle] }
lines:
  front-hose: { kind: brake-hose, spans: [frame, front-axle], across: 150 mm, rise: 120 mm${hose} }
`,
    'k.kit.yaml': `kitproof: kit/1\nname: Shocks\nfor: Moorhen\noptions: { lift: [40 mm, 80 mm] }\n${kit}`,
    'g.install.yaml': `kitproof: install/1\ntitle: G\nvehicle: v.vehicle.yaml\nkit: k.kit.yaml\n${covers}sections:
  - title: S
    steps: [{ do: [{ check: front-hose }] }]
`,
  });
  return findings.map(
    ({ rule, severity, place, message, variants }) =>
      `${severity} ${rule} ${place.uri.slice(place.uri.lastIndexOf('/') + 1)}:${place.span.start} ${message} ${JSON.stringify(variants)}`,
  );
}

const LONGER = (more = '') =>
  `parts:\n  long-shock: { replaces: front-shock, drop: 60 mm, spare: true${more} }\n`;

describe('a line', () => {
  it('that is too short of itself is told where it is written', async () => {
    const [one, ...more] = await told({ hose: ', length: 250 mm' });
    expect(one).toContain('error line-too-short v.vehicle.yaml');
    expect(one).toContain(
      'front-hose is 250 mm long, and its ends are 258 mm apart with front-axle at full droop. []',
    );
    expect(more).toEqual([]);
  });

  it('that a kit makes too short is told where the guide names the kit', async () => {
    const [one, ...more] = await told({ hose: ', length: 300 mm', kit: LONGER() });
    expect(one).toContain('error line-too-short g.install.yaml');
    expect(one).toContain(
      '300 mm long, and its ends are 309 mm apart with front-axle at full droop with long-shock. []',
    );
    expect(more).toEqual([]);
  });

  it('is told of the variants that have the part alone', async () => {
    const kit = LONGER(', when: { lift: 80 mm }');
    expect((await told({ hose: ', length: 300 mm', kit })).join()).toContain('[{"lift":["80 mm"]}]');
    expect(
      await told({
        hose: ', length: 300 mm',
        kit: LONGER(', when: { trim: sport }'),
        covers: 'covers: { trim: plain }\n',
      }),
    ).toEqual([]);
  });

  it('is judged at the bump stop too', async () => {
    const found = await told({ bump: '400 mm', hose: ', length: 300 mm' });
    expect(found.join()).toContain('its ends are 318 mm apart with front-axle at the bump stop. []');
  });

  it.each([
    ['long enough', { hose: ', length: 310 mm', kit: LONGER() }],
    ['of unknown length', { kit: LONGER() }],
    [
      'replaced by a line of the kit',
      {
        hose: ', length: 300 mm',
        kit: `${LONGER()}lines:\n  long-hose: { replaces: front-hose, length: 340 mm, spare: true }\n`,
      },
    ],
    [
      'whose axle something else limits',
      { axle: ', limited-by: [front-shock, front-strap]', hose: ', length: 300 mm', kit: LONGER() },
    ],
  ])('%s is not told of', async (_, job: Job) => expect(await told(job)).toEqual([]));

  it('of the kit is judged as the one that it replaces lies', async () => {
    const kit = `${LONGER()}lines:\n  long-hose: { replaces: front-hose, length: 305 mm, spare: true }\n`;
    expect((await told({ hose: ', length: 300 mm', kit })).join()).toContain(
      'long-hose is 305 mm long, and its ends are 309 mm',
    );
  });
});
