/** A kit's wheel against the largest tyre that its table has for the variant: by the engine, and the same by the oracle. */

import { expect, it } from 'vitest';
import { standardPacks } from '../oracle/example';
import { compare } from '../support/agree';
import { checkFiles } from '../support/engine';

/** What is told where front wheels are changed for those of a kit. */
async function told(wheel: string, rows: string, more = ''): Promise<string[]> {
  const files = {
    'v.vehicle.yaml': `kitproof: vehicle/1\nname: Moorhen\ntraits: { trim: [plain, sport] }
parts:
  front-axle: { kind: live-axle }
  front-wheel: { kind: wheel, mass: 20 kg, joins: [front-axle], joints: { nut: { torque: 130 N·m } } }
`,
    'k.kit.yaml': `kitproof: kit/1\nname: Wheels\noptions: { lift: [0 mm, 40 mm, 80 mm] }
parts:
  trail-wheel: { replaces: front-wheel${wheel} }
clearances: [${rows}]
${more}`,
    'g.install.yaml': `kitproof: install/1\ntitle: Wheels\nvehicle: v.vehicle.yaml\nkit: k.kit.yaml\nsections:
  - title: Work
    steps:
      - do:
          - { raise: vehicle, with: two-post-lift }
          - { unbolt: front-wheel }
          - { discard: front-wheel }
          - { bolt-up: trail-wheel }
          - { snug: trail-wheel }
          - { lower: vehicle }
          - { torque: trail-wheel }
`,
  };
  const { disagreements } = await compare(files, 'g.install.yaml', standardPacks());
  expect(disagreements).toEqual([]);
  const { findings } = await checkFiles(files);
  return findings.map(({ rule, item, severity, operation, message, variants }) =>
    rule === 'tyre-too-large'
      ? `${severity} ${item} ${operation}: ${message} ${JSON.stringify(variants)}`
      : rule,
  );
}

const LOW = '{ when: { lift: { below: 40 mm } }, tyre: 265/70R17 }';
const HIGH = '{ when: { lift: { at-least: 40 mm } }, tyre: 285/75R17 }';

it('a tyre for the greater lift is told for the lower one alone', async () => {
  expect(await told(', tyre: 285/75R17', `${LOW}, ${HIGH}`)).toEqual([
    'warning trail-wheel 1.1.4: 285/75R17 is 57 mm larger across than 265/70R17, the largest that the kit\'s clearances have for this. [{"lift":["0 mm"]}]',
  ]);
});

it.each([
  ['no larger than the rows', ', tyre: 265/70R17', `${LOW}, ${HIGH}`],
  ['within a per cent', ', tyre: 245/75R17', LOW.replace('below: 40 mm', 'at-most: 80 mm')],
  ['without a size', '', `${LOW}, ${HIGH}`],
  [
    'only where the table has it',
    ', tyre: 285/75R17, when: { lift: { at-least: 40 mm } }',
    `${LOW}, ${HIGH}`,
  ],
])('nothing is told of it: %s', async (_, wheel, rows) => {
  expect((await told(wheel, rows)).filter((one) => one.includes('trail-wheel'))).toEqual([]);
});

it('a row for the rest counts where no other does', async () => {
  const found = await told(
    ', tyre: 275/70R17',
    `{ when: { lift: 80 mm }, tyre: 285/75R17 }, { tyre: 245/65R17 }`,
  );
  expect(found.join()).toContain('[{"lift":["0 mm","40 mm"]}]');
  expect(found.length).toBe(1);
});

it('where the table leaves a gap, that is told and not this', async () => {
  expect(await told(', tyre: 285/75R17', HIGH)).toEqual(['clearance-gap']);
});
