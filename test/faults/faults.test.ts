/** The seeded faults: made the same for a seed, each one a change, and a few of them tried for good and bad. */

import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { FAULT_KINDS } from './kinds';
import { type Mutant, mutantsOf } from './mutants';
import { HELD_OUT, readFolders, readStandardPacks, samplesIn } from './samples';
import { detailsOf, summaryOf, tableOf } from './table';
import { Court, type Trial } from './trial';

const ROOT = join(import.meta.dirname, '../..');
const packs = readStandardPacks(ROOT);
const folders = readFolders(join(ROOT, 'samples'));
const samples = folders.flatMap(samplesIn);
const sampleOf = (name: string) => samples.find(({ guide }) => guide === `${name}.install.yaml`)!;
const make = (name: string, most: number, seed = 7): Mutant[] => {
  const sample = sampleOf(name);
  return mutantsOf(sample, seed, most, [...packs, ...Object.values(sample.folder.documents)]);
};

describe('the mutants', () => {
  it('are the same for the same seed, and others for another', () => {
    const texts = (seed: number) => make('wren-air', 5, seed).map(({ text }) => text);
    expect(texts(7)).toEqual(texts(7));
    expect(texts(8)).not.toEqual(texts(7));
  });

  it('differ from their sample and from each other', () => {
    const texts = make('wren-air', 20).map(({ text }) => text);
    expect(new Set([...texts, String(sampleOf('wren-air').folder.texts['wren-air.install.yaml'])]).size).toBe(
      texts.length + 1,
    );
  });

  it('are of every kind', () => {
    const made = new Set(['upland-50', 'wren-air'].flatMap((name) => make(name, 2)).map(({ kind }) => kind));
    expect([...made].sort()).toEqual(FAULT_KINDS.map(({ name }) => name).sort());
  });

  it('of a guide that others use or follow are judged in their jobs too, but never with the one that is kept out', () => {
    expect(sampleOf('wren-common').jobs).toEqual([
      ['wren-air.install.yaml', 'wren-air-second-day.install.yaml'],
      ['wren-air.install.yaml'],
      ['wren-common.install.yaml'],
    ]);
    const others = samples.filter(({ guide }) => guide !== HELD_OUT);
    expect(others.flatMap(({ jobs }) => jobs.flat())).not.toContain(HELD_OUT);
  });
});

describe('the trials', () => {
  let trials: Trial[];
  beforeAll(async () => {
    const court = new Court(packs, folders);
    const mutants = make('wren-common', 3);
    trials = [];
    for (const mutant of mutants) trials.push({ mutant, ...(await court.try(mutant)) });
  });

  const of = (says: string) => trials.find(({ mutant }) => mutant.says.includes(says))!;

  it('find what is harmful', () => {
    const harmful = trials.filter(({ harm }) => harm !== undefined);
    expect(harmful.length).toBeGreaterThan(10);
    const lost = of('without torque: rear-wheel.nut');
    expect(lost.harm).toMatchObject({ kind: 'unlike' });
    expect(lost.findings.map(({ rule }) => rule)).toContain('left-loose');
  });

  it('print the misses, the table and the line that ends it', () => {
    expect(detailsOf(trials)).toMatch(/^\nharmful and not found: \d+/);
    expect(tableOf('all', trials).split('\n')).toHaveLength(FAULT_KINDS.length + 6);
    expect(summaryOf(trials)).toMatch(
      /^faults: \d+\.\d % of \d+ harmful found, \d+\.\d % of \d+ harmless flagged$/,
    );
  });
});
