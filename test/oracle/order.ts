// The order of running: sections, steps, operations, targets, sides, places; and `use`.
import { holds } from './condition.ts';
import { spanned } from './corners.ts';
import { start } from './joints.ts';
import { exchange, findSection, readOperation, readUse } from './operation.ts';
import { perform } from './perform.ts';
import { isMap, list, type Raw, text, texts } from './raw.ts';
import { emptyStep, found, type Run, type StepFrame } from './run.ts';
import { connected, held, holdOn } from './state.ts';
import { resolve, withEnd } from './targets.ts';
import type { Part } from './things.ts';
import { allLines } from './world.ts';

/** Where a step stands: its guide, the names to exchange, the sides left, the `use`s around it. */
export interface Place {
  guideName: string;
  names: Record<string, string>;
  sides: string[];
  stack: string[];
}

/** The sides that remain after one more `side:`. */
export function narrow(sides: string[], side: unknown): string[] {
  return side === 'left' || side === 'right' ? sides.filter((one) => one === side) : sides;
}

/** Runs a section; `path` is its own. */
export function runSection(run: Run, section: Raw, path: string, place: Place): void {
  if (!holds(section.when, run.world.variant)) return;
  const sides = narrow(place.sides, section.side);
  list(section.steps).forEach((step, index) => {
    if (isMap(step)) runStep(run, step, `${path}.${index + 1}`, { ...place, sides });
  });
}

function runStep(run: Run, step: Raw, path: string, place: Place): void {
  const outer = run.step;
  run.step = readStep(step);
  cover(run, path);
  const { variant } = run.world;
  judgeFound(run, step.when, path);
  const done = step.optional !== true || (variant[`done:${text(step.id) ?? path}`] ?? 'yes') === 'yes';
  if (holds(step.when, variant) && done) {
    const sides = narrow(place.sides, step.side);
    const passes = step.side === 'each' ? sides.map((side) => [side]) : [sides];
    for (const pass of passes) runOperations(run, step, path, { ...place, sides: pass });
    hangingOnLines(run);
  }
  run.step = outer;
}

function readStep(step: Raw): StepFrame {
  const cautions = list(step.caution).filter(isMap);
  return {
    ...emptyStep(),
    people: step.people === undefined ? 1 : Number(step.people),
    caution: cautions.length > 0,
    covers: cautions.flatMap((one) => texts(one.covers)),
  };
}

/** A caution that covers a rule excuses its step, so every operation path in it. */
function cover(run: Run, path: string): void {
  if (run.step.covers.length > 0) run.coversAt.set(path, run.step.covers);
}

/** Runs the operations of a step's `do`. */
export function runOperations(run: Run, step: Raw, path: string, place: Place): void {
  list(step.do).forEach((value, index) => {
    const operation = readOperation(value);
    if (!operation) return;
    const { verb, raw } = operation;
    const own = `${path}.${index + 1}`;
    cover(run, own);
    judgeFound(run, raw.when, own);
    if (!holds(raw.when, run.world.variant)) return;
    const sides = narrow(place.sides, raw.side);
    if (verb === 'use') {
      runUse(run, raw, own, { ...place, sides });
      return;
    }
    run.path = own;
    run.raw = raw;
    run.sides = sides;
    run.occurrence += 1;
    runOperation(run, verb, operation.targets, { ...step, ...raw }, place.names);
  });
}

/** One operation: every instance in order. What is tightened together is first started together. */
export function runOperation(
  run: Run,
  verb: string,
  targets: string[],
  places: Raw,
  names: Record<string, string>,
): void {
  const narrowing = { sides: run.sides, places };
  const instances = targets
    .flatMap((target) => resolve(run.world, exchange(target, names), verb, narrowing))
    .flatMap((target) => withEnd(target, text(run.raw.end)));
  if (run.sides.length === 0) return; // the sides narrow to nothing
  if (verb === 'snug' || verb === 'torque') for (const { joint } of instances) if (joint) start(run, joint);
  for (const target of instances) perform(run, verb, target);
}

function runUse(run: Run, raw: Raw, path: string, place: Place): void {
  const { documents } = run.world;
  const wanted = readUse(raw);
  const from = wanted.guide === undefined ? undefined : documents.other(place.guideName, wanted.guide);
  const guideName = from?.name ?? place.guideName;
  const document = from?.document ?? documents.other('.', place.guideName).document;
  const mark = `${guideName}#${wanted.section}`;
  const section = findSection(document, wanted.section);
  if (!section || place.stack.includes(mark)) return; // a section cannot use itself
  const inner = { guideName, names: wanted.names, sides: place.sides, stack: [...place.stack, mark] };
  runSection(run, section.section, `${path}/${section.number}`, inner);
}

/** `found-without-measure`: a branch that nothing before it measured. */
function judgeFound(run: Run, condition: unknown, path: string): void {
  for (const one of list(condition)) {
    if (!isMap(one)) continue;
    for (const name of texts(one.found)) {
      if (!run.world.measured.has(name)) found(run, 'found-without-measure', { item: name, side: '' }, path);
    }
    judgeFound(run, one.not, path);
  }
}

/** `part-hangs-on-line`, when a step ends: what came off, or undone, in it while a line still ties it. */
function hangingOnLines(run: Run): void {
  const seen = new Set<Part>();
  for (const { part, path } of run.step.loosened) {
    if (seen.has(part)) continue;
    seen.add(part);
    const on = part.state === 'fitted' || part.state === 'swung' || part.state === 'off-with';
    const undone = part.joints.length > 0 && part.joints.every((joint) => joint.position === 'out');
    // What is off stands on no aid any more: it must be tied up, or the line must.
    const tied = holdOn(run.world, part) || part.assumedHeld;
    if ((on && !undone) || (part.state === 'off' ? tied : held(run.world, part))) continue;
    const lines = allLines(run.world)
      .filter((line) => connected(line) && spanned(run.world, line).includes(part))
      .filter((line) => part.state !== 'off' || !holdOn(run.world, line));
    for (const line of lines) found(run, 'part-hangs-on-line', { item: line.name, side: line.label }, path);
    if (lines.length > 0 && run.judged) part.assumedHeld = true;
  }
}
