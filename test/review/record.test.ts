import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { CheckRecord } from '../../server/src/review/record';
import { recordPage } from '../../server/src/review/record-html';
import { recordMarkdown } from '../../server/src/review/record-markdown';
import { summaryTable } from '../../server/src/review/record-tables';
import { checkDocuments } from '../../server/src/workspace/check';
import { diskFiles } from '../../server/src/workspace/disk';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { recordOfGuide } from '../../server/src/workspace/record';

const DAY = '2026-01-31';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  rear-axle: { kind: live-axle, mass: 110 kg, limited-by: [rear-shock] }
  rear-wheel: { kind: wheel, mass: 32 kg, sided: true, joins: [rear-axle], joints: { nut: { torque: 130 N·m } } }
  rear-shock:
    kind: shock
    mass: 3 kg
    sided: true
    joins: [frame, rear-axle]
    joints: { bolt: { bushed: false, torque: 90 N·m }, nut: { nut: self-locking, bushed: false } }
  rear-guard: { kind: plate, joins: [frame], joints: { bolt: { torque: 25 N·m } } }
lines:
  locker-plug: { kind: plug, spans: [frame, rear-axle], slack: 60 mm, when: { lockers: fitted } }
`;

const STEPS = `      - do: [{ raise: vehicle, with: two-post-lift }]
      - text: Undo both shocks.
        caution: { signal: danger, text: The axle drops., covers: [support-axle-before-shock-removal] }
        do: [{ unbolt: rear-shock }]
      - when: { lockers: fitted }
        do: [{ disconnect: locker-plug }, { connect: locker-plug }]
      - text: Look hard.
      - text: Drill with care.
        draft: true
        do: [{ drill: rear-guard.hole }]
      - waive: [{ rule: new-locking-nut, because: Oiled by the maker., by: R. Roe, until: 2026-12-31 }]
        do:
          - bolt-up: rear-shock
          - torque: rear-shock.bolt
          - torque: rear-shock.nut
            to: 60 N·m
      - do: [{ check: rear-shock, expect: straight }]
      - do: [{ unbolt: rear-guard }]
      - do: [{ lower: vehicle }]
`;

const HEAD = `kitproof: install/1
title: Rear shocks
revision: C
vehicle: moorhen.vehicle.yaml
given: { locker-plug: connected }
owes: [{ check: rear-wheel.nut, after: 80 km }]
`;

const guide = (steps = STEPS, head = HEAD) => `${head}sections:\n  - title: All\n    steps:\n${steps}`;

async function recordFor(
  text = guide(),
  variant: Readonly<Record<string, string>> = {},
  config = 'rules: { left-loose: "off" }',
): Promise<CheckRecord> {
  const files = new Map([
    ['/p/moorhen.vehicle.yaml', VEHICLE],
    ['/p/a.install.yaml', text],
    ['/p/kitproof.yaml', `kitproof: config/1\n${config}\n`],
  ]);
  const project = new Project(memoryFiles(files), standardPacks());
  const document = (await project.open('/p/a.install.yaml'))!;
  return recordOfGuide(project, document, new Map(Object.entries(variant)), DAY, '1.2.3');
}

const dutyOf = (record: CheckRecord, rule: string) => record.duties.find((duty) => duty.rule === rule);
const itemsOf = (record: CheckRecord, about: string) =>
  record.judging.find((one) => one.about.startsWith(about))?.items ?? [];

describe('a check record', () => {
  test('counts what was asked, as one counts it by hand', async () => {
    const record = await recordFor();
    // Two joints on each of two sides are torqued, in one step.
    expect(dutyOf(record, 'torque-without-figure')).toMatchObject({ asked: 4, steps: 1, said: 'in order' });
    // Of the shocks and the guard each part is taken off once a side.
    expect(dutyOf(record, 'loosen-before-remove')).toMatchObject({ asked: 3, steps: 2 });
    expect(dutyOf(record, 'left-disconnected')).toMatchObject({ asked: 1, results: ['held'] });
  });

  test('says in which variants', async () => {
    const record = await recordFor();
    expect(dutyOf(record, 'left-disconnected')?.variants).toBe('lockers: fitted');
    expect(dutyOf(record, 'torque-without-figure')?.variants).toBeNull();
    const none = await recordFor(guide(), { lockers: 'none' });
    expect(dutyOf(none, 'left-disconnected')).toBeUndefined();
    expect(none.variant).toEqual([{ name: 'lockers', value: 'none' }]);
    expect(none.neverAsked.flatMap(({ rules }) => rules)).toContain('left-disconnected');
  });

  test('tells what is open with its step, what a caution covers and what is waived by whom', async () => {
    const record = await recordFor();
    expect(dutyOf(record, 'left-off')?.said).toBe('1 open, step 1.8');
    expect(record.open).toContainEqual(
      expect.objectContaining({ rule: 'left-off', where: '1.8', harm: 'injury' }),
    );
    expect(record.open[0]?.harm).toBe('injury');
    expect(dutyOf(record, 'support-axle-before-shock-removal')?.results).toEqual(['covered']);
    expect(record.covered).toEqual([
      expect.objectContaining({ rule: 'support-axle-before-shock-removal', where: '1.2' }),
    ]);
    expect(record.waived).toEqual([
      expect.objectContaining({
        rule: 'new-locking-nut',
        by: 'R. Roe',
        because: 'Oiled by the maker.',
        until: '2026-12-31',
        where: '1.6',
        written: 'a.install.yaml:20',
      }),
    ]);
  });

  test('says what is undecided as the check says it, and which rule waits for it', async () => {
    const record = await recordFor();
    const mass = record.undecided.find(({ property }) => property === 'mass');
    expect(mass).toMatchObject({ items: ['rear-guard'], rules: ['heavy-part-held'] });
    expect(mass?.said).toBe('say the mass of rear-guard (mass: 3 kg)');
    expect(dutyOf(record, 'heavy-part-held')?.results).toEqual(['undecided']);
  });

  test('never counts as checked what nothing was asked of, nor what the house switched off', async () => {
    const record = await recordFor();
    const never = record.neverAsked.flatMap(({ rules }) => rules);
    expect(never).toContain('relieve-fuel-before-opening');
    expect(dutyOf(record, 'relieve-fuel-before-opening')).toBeUndefined();
    expect(record.off).toEqual([{ rule: 'left-loose', harm: 'injury' }]);
    expect(dutyOf(record, 'left-loose')).toBeUndefined();
    const all = [...record.duties.map(({ rule }) => rule), ...never, ...record.reading];
    expect(new Set(all).size).toBe(all.length);
    expect(all.length).toBe(record.packs.reduce((sum, { on }) => sum + on, 0));
  });

  test('counts each rule once, so that the columns add up to those that were asked', async () => {
    const record = await recordFor();
    const { columns, rows } = summaryTable(record);
    const at = (row: readonly unknown[], key: string) =>
      Number(row[columns.findIndex((one) => one.key === key)]) || 0;
    for (const row of rows) {
      const parts = ['held', 'open', 'undecided', 'covered', 'waived'].map((key) => at(row, key));
      expect(parts.reduce((sum, one) => sum + one)).toBe(at(row, 'duties'));
    }
    expect(rows.reduce((sum, row) => sum + at(row, 'findings'), 0)).toBe(record.open.length);
  });

  test('tells of an open finding how grave it is and where it is written', async () => {
    const record = await recordFor();
    expect(record.open.find(({ rule }) => rule === 'left-off')).toMatchObject({
      where: '1.8',
      place: 'a.install.yaml:27',
    });
    expect(recordMarkdown(record)).toMatch(/\| 1\.8 +\| error +\|.*a\.install\.yaml:27/);
  });

  test('says why the check asks nothing of a wheel that one person lifts', async () => {
    const record = await recordFor(guide(`      - do: [{ remove: rear-wheel }, { fit: rear-wheel }]\n`));
    expect(itemsOf(record, 'Heavy')[0]?.what).toBe(
      'Rear wheel, 32 kg: one person (wheels are a matter of handling: the check does not ask who lifts them)',
    );
  });

  test('lists steps not checked, drafts and what is taken for granted', async () => {
    const record = await recordFor();
    expect(record.unchecked).toContainEqual({ step: '1.4', why: 'it has words only, no operations' });
    expect(record.drafts).toEqual(['1.5']);
    const granted = record.assumptions.join(' ');
    expect(granted).toContain('Locker plug: connected');
    expect(granted).toContain('rear wheel, nut after 80 km');
  });

  test('makes the list for a person from this guide', async () => {
    const record = await recordFor();
    expect(itemsOf(record, 'Cautions')[0]).toMatchObject({
      step: '1.2',
      what: expect.stringContaining('DANGER'),
    });
    expect(itemsOf(record, 'Steps of words')).toEqual([{ step: '1.4', what: 'Look hard.' }]);
    expect(itemsOf(record, 'Drilled')).toEqual([{ step: '1.5', what: 'Drill rear guard, hole' }]);
    expect(itemsOf(record, 'Torques').map(({ what }) => what)).toEqual([
      'Rear shock, bolt: 90 N·m (by the data alone)',
      'Rear shock, nut: 60 N·m (by the guide alone)',
    ]);
    expect(itemsOf(record, 'Checks')).toEqual([{ step: '1.7', what: 'Rear shock: “straight”' }]);
    expect(itemsOf(record, 'Findings accepted')).toHaveLength(1);
    expect(itemsOf(record, 'Tried')[0]?.what).toContain('fitted');
    expect(record.judging.every(({ items }) => items.length > 0)).toBe(true);
  });

  test('is matched to the texts it is of', async () => {
    const [one, same, other] = [
      await recordFor(),
      await recordFor(),
      await recordFor(guide(`${STEPS}# more\n`)),
    ];
    expect(same).toEqual(one);
    const hashes = ({ files }: CheckRecord) => new Map(files.map(({ file, hash }) => [file, hash]));
    expect(hashes(one).get('a.install.yaml')).toMatch(/^[0-9a-f]{12}$/);
    expect(hashes(other).get('a.install.yaml')).not.toBe(hashes(one).get('a.install.yaml'));
    expect(hashes(other).get('moorhen.vehicle.yaml')).toBe(hashes(one).get('moorhen.vehicle.yaml'));
    expect([...hashes(one).keys()]).toEqual(['a.install.yaml', 'moorhen.vehicle.yaml', 'kitproof.yaml']);
  });

  test('says in every printed form that it certifies nothing, in head and foot, and has places to sign', async () => {
    const record = await recordFor();
    const page = recordPage(record, 'a4');
    const markdown = recordMarkdown(record);
    for (const form of [page, markdown]) {
      const [first, last] = [form.indexOf('certifies nothing'), form.lastIndexOf('certifies nothing')];
      expect(first).toBeGreaterThan(0);
      expect(last).toBeGreaterThan(form.indexOf('What only a person can judge'));
      for (const word of [
        'Written by',
        'Reviewed by',
        'Signature',
        'Date',
        'revision C',
        '1.2.3',
        'Left loose'.toLowerCase(),
      ])
        expect(form).toContain(word);
    }
    expect(page).not.toContain('<script');
  });

  test('holds of a text that is markup what is text', async () => {
    const record = await recordFor(guide(STEPS.replace('Look hard.', 'Look <b>hard</b> | *now*.')));
    expect(recordPage(record, 'letter')).toContain('Look &#x3C;b>hard&#x3C;/b> | *now*.');
    expect(recordMarkdown(record)).toContain('Look \\<b>hard\\</b> \\| \\*now\\*.');
  });
});

test('a record of a sample has open what the check has open', async () => {
  const folder = resolve(import.meta.dirname, '../../samples');
  const faulty = readdirSync(`${folder}/faulty`).filter((name) => name.endsWith('.install.yaml'));
  const names = ['upland-50.install.yaml', 'wren/wren-air.install.yaml'].concat(
    faulty.filter((_, index) => index % 5 === 0).map((name) => `faulty/${name}`),
  );
  for (const name of names) {
    const project = new Project(diskFiles, standardPacks());
    const uri = `${folder}/${name}`;
    const record = await recordOfGuide(project, (await project.open(uri))!, new Map(), DAY, '1');
    const check = (await checkDocuments(project, [uri], { today: DAY }))!;
    expect(record.open.map(({ message }) => message).sort(), name).toEqual(
      check.findings.map(({ message }) => message).sort(),
    );
    const told = record.duties.reduce((sum, { said }) => sum + Number(/(\d+) open/.exec(said)?.[1] ?? 0), 0);
    const ofRules = check.findings.filter(({ rule }) => record.duties.some((duty) => duty.rule === rule));
    expect(told, name).toBe(ofRules.length);
    expect(record.waived.length).toBe(check.waived.length);
  }
});
