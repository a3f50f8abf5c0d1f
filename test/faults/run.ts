/**
 * `npm run faults [-- GUIDE …]`: seeds single faults in the samples, and tells of those that the judge calls harmful how many
 * the checker finds, and of the harmless how many it flags. Words after `--` pick the guides whose names have one of them.
 */

import { join } from 'node:path';
import { mutantsOf } from './mutants';
import { HELD_OUT, readFolders, readStandardPacks, samplesIn } from './samples';
import { detailsOf, summaryOf, tableOf } from './table';
import { Court, type Trial } from './trial';

const seed = Number(process.env.KITPROOF_FAULTS_SEED ?? 20260131);
const most = Number(process.env.KITPROOF_FAULTS_MOST ?? 60);
const words = process.argv.slice(2);

const packs = readStandardPacks(process.cwd());
const folders = readFolders(join(process.cwd(), 'samples'));
const court = new Court(packs, folders);
const trials: Trial[] = [];
console.log(
  `seed ${seed}, at most ${most} faults of a kind in a guide (KITPROOF_FAULTS_SEED, KITPROOF_FAULTS_MOST)`,
);
for (const sample of folders.flatMap(samplesIn)) {
  if (words.length > 0 && !words.some((word) => sample.guide.includes(word))) continue;
  for (const harm of new Set(court.soundHarm(sample))) console.log(`${sample.guide} as it is: ${harm}`);
  const vocabulary = [...packs, ...Object.values(sample.folder.documents)];
  for (const mutant of mutantsOf(sample, seed, most, vocabulary)) trials.push(await court.try(mutant));
}

const held = trials.filter(({ mutant }) => mutant.sample.guide === HELD_OUT);
const worked = trials.filter((trial) => !held.includes(trial));
console.log(detailsOf(trials));
if (worked.length > 0) console.log(tableOf('the samples that judge and rules were worked on with', worked));
if (held.length > 0) console.log(tableOf(`the one that was kept out: ${HELD_OUT}`, held));
console.log(tableOf('all', trials));
console.log(summaryOf(trials));
