/**
 * `npm run faults [-- GUIDE …]`: seeds single faults in the samples, and tells of those that the judge calls harmful how many
 * the checker finds, and of the harmless how many it flags. Words after `--` pick the guides whose names have one of them.
 */

import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { type Mutant, mutantsOf } from './mutants';
import { HELD_OUT, readFolders, readStandardPacks, samplesIn } from './samples';
import { detailsOf, summaryOf, tableOf } from './table';
import { Court, type Outcome, type Trial } from './trial';

const seed = Number(process.env.KITPROOF_FAULTS_SEED ?? 20260131);
const most = Number(process.env.KITPROOF_FAULTS_MOST ?? 60);
const words = process.argv.slice(2);

const packs = readStandardPacks(process.cwd());
const folders = readFolders(join(process.cwd(), 'samples'));
const samples = folders
  .flatMap(samplesIn)
  .filter(({ guide }) => words.length === 0 || words.some((word) => guide.includes(word)));
const mutants: readonly Mutant[] = samples.flatMap((sample) =>
  mutantsOf(sample, seed, most, [...packs, ...Object.values(sample.folder.documents)]),
);

/** A part of the mutants, each with its number; workers share the numbers out among them. */
async function tryThem(of: number, first: number): Promise<void> {
  const court = new Court(packs, folders);
  for (let at = first; at < mutants.length; at += of)
    parentPort!.postMessage([at, await court.try(mutants[at]!)] satisfies [number, Outcome]);
}

/** Tries all of them, with as many workers as there are cores. */
async function tryAll(): Promise<Trial[]> {
  const of = Math.max(1, Math.min(4, availableParallelism()));
  const outcomes = new Map<number, Outcome>();
  await Promise.all(
    Array.from({ length: of }, (_, first) => {
      const worker = new Worker(new URL(import.meta.url), { argv: words, workerData: { of, first } });
      worker.on('message', ([at, outcome]: [number, Outcome]) => outcomes.set(at, outcome));
      return new Promise<void>((resolve, reject) => {
        worker.on('error', reject);
        worker.on('exit', () => resolve());
      });
    }),
  );
  return mutants.map((mutant, at) => ({ mutant, ...outcomes.get(at)! }));
}

async function main(): Promise<void> {
  console.log(
    `seed ${seed}, at most ${most} faults of a kind in a guide (KITPROOF_FAULTS_SEED, KITPROOF_FAULTS_MOST)`,
  );
  const court = new Court(packs, folders);
  for (const sample of samples)
    for (const harm of new Set(court.soundHarm(sample))) console.log(`${sample.guide} as it is: ${harm}`);
  const trials = await tryAll();
  const held = trials.filter(({ mutant }) => mutant.sample.guide === HELD_OUT);
  const worked = trials.filter((trial) => !held.includes(trial));
  console.log(detailsOf(trials));
  if (held.length > 0 && worked.length > 0) {
    console.log(tableOf('the samples that judge and rules were worked on with', worked));
    console.log(tableOf(`the one that was kept out of that: ${HELD_OUT}`, held));
  }
  console.log(tableOf('all', trials));
  console.log(summaryOf(trials));
}

if (isMainThread) await main();
else await tryThem(workerData.of, workerData.first);
