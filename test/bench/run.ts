/** `npm run bench`: times as ratios measured in one run, so that they mean the same on any machine. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseDocument } from 'yaml';
import { checkGuide } from '../../server/src/check/check';
import type { Document } from '../../server/src/workspace/document';
import { bindGuideOf, checkGuideOf } from '../../server/src/workspace/engine';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { type Closure, Project } from '../../server/src/workspace/project';
import { hostileGuide, largeGuide, upAndDown } from './guides';
import { describeStates, hostileRun, ratioToOneVariant } from './variants.bench';

const now = () => performance.now();

/** The middle of several timings of one piece of work, in ms, after a warm-up. */
function median(work: () => void, times = 7): number {
  work();
  const taken = Array.from({ length: times }, () => {
    const start = now();
    work();
    return now() - start;
  });
  return taken.sort((a, b) => a - b)[times >> 1]!;
}

function driveToEnd(work: Generator<unknown, unknown>): void {
  while (work.next().done !== true);
}

async function closureOf(
  files: Readonly<Record<string, string>>,
  guide: string,
): Promise<[Closure, Document]> {
  const contents = new Map(Object.entries(files).map(([name, text]) => [`/bench/${name}`, text]));
  const project = new Project(memoryFiles(contents), standardPacks());
  const document = (await project.open(`/bench/${guide}`))!;
  return [await project.closureOf(document), document];
}

function print(label: string, value: string): void {
  console.log(`${label.padEnd(66)} ${value}`);
}

const ms = (time: number) => `${time.toFixed(1)} ms`;
const ratio = (a: number, b: number) => `${(a / b).toFixed(2)} ×`;

/** Binding, running and judging a guide, against reading its text with a general-purpose YAML parser. */
async function guide(label: string, files: Readonly<Record<string, string>>, name: string): Promise<number> {
  const [closure] = await closureOf(files, name);
  const text = files[name]!;
  const parsing = median(() => parseDocument(text));
  const checking = median(() => driveToEnd(checkGuideOf(closure, '2026-03-14')));
  const model = bindGuideOf(closure);
  const binding = median(() => bindGuideOf(closure));
  const judging = median(() => driveToEnd(checkGuide(model, closure.rulebook, '2026-03-14')), 15);
  print(
    `${label}: check (bind, run, judge)`,
    `${ms(checking)}  ${ratio(checking, parsing)} one parse of its YAML`,
  );
  print(`${label}: binding, and running`, `${ms(binding)}, ${ms(judging)}`);
  return judging;
}

/**
 * What twenty two-valued traits cost against one variant, over the whole check: the least of several timings of each, taken
 * in turns, so that what else the machine does falls on both.
 */
async function variants(
  label: string,
  one: Readonly<Record<string, string>>,
  many: Readonly<Record<string, string>>,
  aim: string,
): Promise<void> {
  const name = 'large.install.yaml';
  const closures = [(await closureOf(one, name))[0], (await closureOf(many, name))[0]];
  const least = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const found = ['', ''];
  for (let round = 0; round < 12; round++)
    closures.forEach((closure, index) => {
      const start = now();
      const work = checkGuideOf(closure, '2026-03-14');
      let turn = work.next();
      while (turn.done !== true) turn = work.next();
      least[index] = Math.min(least[index]!, now() - start);
      const { findings } = turn.value;
      const lost = findings.filter(({ rule }) => rule === 'too-many-variants').length;
      found[index] = `${findings.length} findings, ${lost} of them that something was not decided`;
    });
  print(
    `${label}: 20 two-valued traits against one variant`,
    `${ms(least[1]!)} to ${ms(least[0]!)}: ${ratio(least[1]!, least[0]!)} (${aim})`,
  );
  print('', found[1]!);
}

/** How much longer four times the steps take: about four, where time grows with the steps. */
async function growth(label: string, files: (steps: number) => Record<string, string>): Promise<void> {
  const timeOf = async (steps: number) => {
    const [closure] = await closureOf(files(steps), 'large.install.yaml');
    return median(() => driveToEnd(checkGuideOf(closure, '2026-03-14')), 3);
  };
  const [few, many] = [await timeOf(500), await timeOf(2000)];
  print(`${label}: 2,000 steps against 500`, `${ms(many)} to ${ms(few)}: ${ratio(many, few)} (about 4)`);
}

const samples = join(process.cwd(), 'samples');
const sample = Object.fromEntries(
  [
    'moorhen.vehicle.yaml',
    'upland-50.kit.yaml',
    'upland-50.install.yaml',
    'workshop.times.yaml',
    'kitproof.yaml',
  ].map((name) => [name, readFileSync(join(samples, name), 'utf8')]),
);

await guide('sample, 114 steps', sample, 'upland-50.install.yaml');
await guide('1,000 steps, no traits (seed 1)', largeGuide(1000, 0), 'large.install.yaml');
await guide('1,000 steps, 20 two-valued traits (seed 1)', largeGuide(1000, 20), 'large.install.yaml');
await variants('300 steps (seed 1)', largeGuide(300, 0), largeGuide(300, 20), 'at most 4');
await variants('300 steps (seed 7)', largeGuide(300, 0, 7), largeGuide(300, 20, 7), 'at most 4');
await variants(
  '300 hostile steps (seed 1)',
  hostileGuide(300, 0),
  hostileGuide(300, 20),
  'bounded; the rest is told',
);
await growth('up and down again in every step', upAndDown);
await growth('joints one by one (seed 1)', (steps) => largeGuide(steps, 0));
print('diagrams alone, 20 traits against one variant', `${ratioToOneVariant(now, 20).toFixed(2)} ×`);
console.log('describing sets:', JSON.stringify(describeStates(now)));
console.log('a hostile item:', JSON.stringify(hostileRun(now)));
print('memory after all of it', `${Math.round(process.memoryUsage().rss / 1e6)} MB`);
