// The harm judge by hand-made cases, right and wrong, and by guides that are known to be right.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readFolders, readStandardPacks, samplesIn } from '../../faults/samples';
import { proceduresOf } from '../../procedures/suite';
import { map, type Raw, text } from '../raw';
import { GUIDE, KIT, VEHICLE } from './cases';
import { type Harm, Judge } from './judge';

const ROOT = join(import.meta.dirname, '../../..');
const packs = readStandardPacks(ROOT);
const read = (source: string): Raw => map(parse(source, { merge: true }));
const sound = { 'v.yaml': read(VEHICLE), 'k.yaml': read(KIT), 'g.yaml': read(GUIDE) };
const judge = new Judge(sound, ['g.yaml'], packs);

type Change = readonly [find: string, replace: string];

/** The harm of the small job with some texts exchanged. */
function harmWith(...changes: readonly Change[]): Harm | undefined {
  let guide = GUIDE;
  for (const [find, replace] of changes) {
    if (guide.split(find).length !== 2) throw new Error(`not once in the guide: ${find}`);
    guide = guide.replace(find, replace);
  }
  return judge.harmOf({ 'g.yaml': read(guide) });
}

describe('the judge says nothing of what is sound', () => {
  it('the small job', () => expect(judge.soundHarm()).toEqual([]));

  it.each(
    readFolders(join(ROOT, 'samples'))
      .flatMap(samplesIn)
      .map((sample) => [sample.guide, sample] as const),
  )('sample %s', (_, { folder, jobs }) => {
    const vocabulary = [...packs, ...Object.values(folder.documents)];
    for (const job of jobs) expect(new Judge(folder.documents, job, vocabulary).soundHarm()).toEqual([]);
  });

  // What these need the judge does not know: joints by use, springs without an axle, what is given.
  const beyond = ['one-corner', 'clutch', 'leaf-springs', 'struts', 'washer-tank-from-given-state'];
  const known = proceduresOf(join(ROOT, 'test/procedures')).filter(
    ({ name, files }) =>
      /^vehicle:/m.test(files['right.install.yaml'] ?? '') && !beyond.some((word) => name.startsWith(word)),
  );
  it.each(known.map((one) => [one.name, one] as const))('procedure %s', (_, { files }) => {
    const documents = Object.fromEntries(Object.entries(files).map(([name, source]) => [name, read(source)]));
    const before = text(documents['right.install.yaml']?.follows);
    const job = [...(before === undefined ? [] : [before]), 'right.install.yaml'];
    expect(new Judge(documents, job, packs).soundHarm()).toEqual([]);
  });
});

const SUPPORT = '      - do: [{ support: front-axle, with: pole-jacks }]\n';
const WHEELS = '          - bolt-up: front-wheel\n';
const PIN = '          - renew: drag-link.axle-nut.pin\n';

const HARMFUL: readonly (readonly [name: string, kind: Harm['kind'], says: RegExp, ...changes: Change[]])[] =
  [
    ['no jack under the axle', 'falls', /front-axle drops/, [SUPPORT, '']],
    [
      'one man under a heavy guard',
      'falls',
      /guard \(18 kg\)/,
      ['people: 2\n        do: [{ unbolt', 'do: [{ unbolt'],
    ],
    [
      'wheel off on the ground',
      'falls',
      /weight on it/,
      ['raise: vehicle, with: two-post-lift', 'wait: 1 min'],
    ],
    [
      'only a jack under the rear',
      'rolls',
      /chocked/,
      ['raise: vehicle, with: two-post-lift', 'raise: front, with: trolley-jack'],
    ],
    ['jacks left under', 'crushes', /pole-jack/, ['          - unsupport: front-axle\n', '']],
    [
      'no wheel to stand on',
      'crushes',
      /no wheel/,
      [WHEELS, ''],
      ['snug: [front-wheel.nut, rear-wheel.nut]', 'snug: rear-wheel.nut'],
    ],
    [
      'nuts not run home',
      'loose',
      /nuts are seated/,
      ['snug: [front-wheel.nut, rear-wheel.nut]', 'start: front-wheel.nut'],
    ],
    ['spring not let down', 'flies', /front-coil/, ['            by: 120 mm', '            by: 60 mm']],
    ['hose too short', 'torn', /front-hose/, ['            by: 120 mm', '            by: 160 mm']],
    ['axle let down too far', 'falls', /in its arms/, ['            by: 120 mm', '            by: 200 mm']],
    [
      'plug left in, where there is one',
      'torn',
      /locker-plug/,
      ['do: [{ disconnect: locker-plug }]', 'do: []'],
    ],
    [
      'cable let go',
      'whips',
      /park-cable/,
      ['          - hold: park-cable\n            with: locking-pliers\n', ''],
    ],
    ['brake pulled on', 'live', /brake pulled on/, ['            to: "off"\n', '            to: "on"\n']],
    ['arms left tight', 'wound', /front-arm/, ['loosen: front-arm', 'check: front-arm']],
    [
      'arms tightened in the air',
      'wound',
      /in the air/,
      [
        '          - lower: front-axle\n          - unsupport',
        '          - lower: front-axle\n          - torque: front-arm\n          - unsupport',
      ],
    ],
    ['wrong figure', 'figure', /100 N·m and gets 120/, ['to: 100 N·m', 'to: 120 N·m']],
    ['old lock nut', 'spent', /lower-bolt/, ['            new: [nut]\n', '']],
    [
      'left spring on the right',
      'hand',
      /left tall-coil/,
      ['fit: tall-coil', 'fit: tall-coil, article: left'],
    ],
    ['no pin', 'unlike', /no pin/, [PIN, '']],
    [
      'pin before the nut',
      'cannot',
      /before the nut is tight/,
      [PIN, ''],
      ['          - torque: drag-link.axle-nut\n', `${PIN}          - torque: drag-link.axle-nut\n`],
    ],
    ['taper under its nut', 'cannot', /its nut is on/, ['          - remove: drag-link.axle-nut\n', '']],
    ['guard still there', 'cannot', /in the way/, ['do: [{ unbolt: guard }]', 'do: [{ check: guard }]']],
    [
      'spring into too small a gap',
      'cannot',
      /does not go in/,
      [
        '      - do: [{ fit: tall-coil }]\n      - do: [{ raise: front-axle, by: 120 mm }]\n',
        '      - do: [{ raise: front-axle, by: 120 mm }]\n      - do: [{ fit: tall-coil }]\n',
      ],
    ],
    [
      'shock out of reach',
      'cannot',
      /does not reach/,
      ['      - do: [{ raise: front-axle, by: 120 mm }]\n', ''],
    ],
    [
      'old spring not taken out',
      'cannot',
      /should go/,
      ['          - remove: front-coil\n          - discard: front-coil\n', ''],
    ],
    [
      'drilled unmarked',
      'astray',
      /nothing was marked/,
      ['          - offer: rod-bracket\n          - mark: rod-bracket.bolt-hole\n', ''],
    ],
    [
      'bolted before it is drilled',
      'cannot',
      /not drilled/,
      ['          - drill: rod-bracket.bolt-hole\n            to: 13 mm\n', ''],
      [
        '          - torque: rod-bracket.bolt\n',
        '          - torque: rod-bracket.bolt\n          - drill: rod-bracket.bolt-hole\n            to: 13 mm\n',
      ],
    ],
    ['edge left bare', 'unlike', /left bare/, ['          - coat: rod-bracket.bolt-hole\n', '']],
    [
      'one side forgotten',
      'unlike',
      /\(right\) is left/,
      ['torque: [front-arm, front-shock]', 'side: left\n            torque: [front-arm, front-shock]'],
    ],
    ['never let down', 'wound', /in the air/, ['do: [{ lower: vehicle }]', 'do: [{ wait: 1 min }]']],
    [
      'nobody sets the wheels',
      'unlike',
      /sets the wheels/,
      ['owes: [{ check: alignment, before: road }]\n', ''],
    ],
  ];

describe('the judge sees what a mechanic fears', () => {
  it.each(HARMFUL.map(([name, ...rest]) => [name, rest] as const))('%s', (_, [kind, says, ...changes]) => {
    const harm = harmWith(...changes.filter(([find, replace]) => find !== replace));
    expect(harm).toMatchObject({ kind });
    expect(harm?.says).toMatch(says);
  });
});

const HARMLESS: readonly (readonly [name: string, ...changes: Change[]])[] = [
  [
    'a wait more',
    ['      - do: [{ loosen: front-arm }]\n', '      - do: [{ loosen: front-arm }, { wait: 5 min }]\n'],
  ],
  [
    'arms slackened after the jacks are under',
    ['      - do: [{ loosen: front-arm }]\n', ''],
    [SUPPORT, `${SUPPORT}      - do: [{ loosen: front-arm }]\n`],
  ],
  ['old springs left lying', ['          - discard: front-coil\n', '']],
  ['a little lower', ['            by: 120 mm', '            by: 125 mm']],
  [
    'wheel nuts nipped a side at a time',
    [
      '          - snug: [front-wheel.nut, rear-wheel.nut]\n',
      '          - snug: front-wheel.nut\n          - snug: rear-wheel.nut\n',
    ],
  ],
  [
    'a jack drawn out without being let down by a line of its own',
    ['          - lower: front-axle\n          - unsupport', '          - unsupport'],
  ],
  [
    'a figure within the range',
    [
      '          - torque: drag-link.axle-nut\n',
      '          - torque: drag-link.axle-nut\n            to: 65 N·m\n',
    ],
  ],
  [
    'drilled through the bracket held up',
    ['          - mark: rod-bracket.bolt-hole\n          - withdraw: rod-bracket\n', ''],
  ],
];

describe('the judge lets pass what does no harm', () => {
  it.each(HARMLESS.map(([name, ...changes]) => [name, changes] as const))('%s', (_, changes) => {
    expect(harmWith(...changes)).toBeUndefined();
  });
});

it('the judge imports nothing of the engine, nor of the oracle that is written from the same page', () => {
  const reading = ['condition', 'operation', 'packs', 'quantity', 'raw'];
  for (const name of readdirSync(import.meta.dirname)) {
    if (!name.endsWith('.ts') || name.endsWith('.test.ts')) continue;
    const source = readFileSync(join(import.meta.dirname, name), 'utf8');
    const above = [...source.matchAll(/from '\.\.\/(.*?)\.ts'/g)].map((match) => match[1]!);
    expect(
      above.filter((one) => !reading.includes(one)),
      name,
    ).toEqual([]);
    expect(source).not.toContain('server/src');
  }
});
