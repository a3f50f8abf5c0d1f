// The order of running: sections, steps, operations, targets, sides, places; and `use`.
import { holds } from './condition.ts';
import { spanned } from './corners.ts';
import { settleDone } from './implied.ts';
import { start } from './joints.ts';
import { exchange, findSection, readOperation, readUse } from './operation.ts';
import { perform } from './perform.ts';
import { isMap, list, type Raw, text, texts } from './raw.ts';
import { emptyStep, found, type Run, type StepFrame } from './run.ts';
import { connected, held, holdOn } from './state.ts';
import { resolve, withEnd } from './targets.ts';
import type { Part, Target } from './things.ts';
import { allLines, related } from './world.ts';

/** Where a step stands: its guide, the names to exchange, the sides left, the `use`s and conditions around it. */
export interface Place {
  guideName: string;
  names: Record<string, string>;
  sides: string[];
  stack: string[];
  conditions: unknown[]; // of all that stands around
  optional: string[]; // the optional steps around
  live: boolean; // whether all of these hold
}

/** A place that nothing stands around. */
export function topPlace(guideName: string, sides: string[]): Place {
  return { guideName, names: {}, sides, stack: [], conditions: [], optional: [], live: true };
}

/** A place with one more condition around it. */
function under(run: Run, place: Place, when: unknown, sides: string[]): Place {
  if (when === undefined) return { ...place, sides };
  const live = place.live && holds(when, run.world.variant);
  return { ...place, sides, live, conditions: [...place.conditions, when] };
}

/** The sides that remain after one more `side:`. */
export function narrow(sides: string[], side: unknown): string[] {
  return side === 'left' || side === 'right' ? sides.filter((one) => one === side) : sides;
}

/** Runs a section; `path` is its own. */
export function runSection(run: Run, section: Raw, path: string, place: Place): void {
  const inner = under(run, place, section.when, narrow(place.sides, section.side));
  list(section.steps).forEach((step, index) => {
    if (isMap(step)) runStep(run, step, `${path}.${index + 1}`, inner);
  });
}

function runStep(run: Run, step: Raw, path: string, place: Place): void {
  const outer = run.step;
  run.step = readStep(step);
  cover(run, path);
  const inner = under(run, place, step.when, narrow(place.sides, step.side));
  if (step.optional === true) {
    const id = text(step.id) ?? path;
    inner.optional = [...inner.optional, id];
    inner.live &&= run.world.variant[`done:${id}`] === 'yes';
  }
  const passes = step.side === 'each' ? inner.sides.map((side) => [side]) : [inner.sides];
  for (const pass of passes) runOperations(run, step, path, { ...inner, sides: pass });
  if (inner.live) hangingOnLines(run);
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

/** Runs the operations of a step's `do`; where the step is not run, only asks what would have been measured. */
export function runOperations(run: Run, step: Raw, path: string, place: Place): void {
  list(step.do).forEach((value, index) => {
    const operation = readOperation(value);
    if (!operation) return;
    const { verb, raw } = operation;
    const own = `${path}.${index + 1}`;
    cover(run, own);
    const inner = under(run, place, raw.when, narrow(place.sides, raw.side));
    if (verb === 'use') {
      runUse(run, raw, own, inner);
      return;
    }
    run.path = own;
    run.raw = raw;
    run.sides = inner.sides;
    const targets = instancesOf(run, verb, operation.targets, { ...step, ...raw }, place.names);
    if (targets.length > 0) judgeFound(run, inner, namesFound(place.conditions), path);
    if (targets.length > 0) judgeFound(run, inner, namesFound([raw.when]), own);
    if (!inner.live) return;
    run.occurrence += 1;
    runOperation(run, verb, targets);
  });
}

function instancesOf(
  run: Run,
  verb: string,
  targets: string[],
  places: Raw,
  names: Record<string, string>,
): Target[] {
  if (run.sides.length === 0) return []; // the sides narrow to nothing
  const narrowing = { sides: run.sides, places };
  return targets
    .flatMap((target) => resolve(run.world, exchange(target, names), verb, narrowing))
    .flatMap((target) => withEnd(target, text(run.raw.end)));
}

/** One operation: every instance in order. What is tightened together is first started together. */
function runOperation(run: Run, verb: string, instances: Target[]): void {
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
  const inner = { ...place, guideName, names: wanted.names, stack: [...place.stack, mark] };
  runSection(run, section.section, `${path}/${section.number}`, inner);
}

/** The names under `found` in some conditions. */
function namesFound(conditions: unknown[]): string[] {
  return conditions.flatMap((condition) =>
    list(condition)
      .filter(isMap)
      .flatMap((one) => [...texts(one.found), ...namesFound([one.not])]),
  );
}

/** `found-without-measure`: the operation would run on a branch that nothing before it measured, found or not. */
function judgeFound(run: Run, place: Place, names: string[], path: string): void {
  const { world } = run;
  if (!run.judged) return;
  for (const name of names) {
    if (world.measured.has(name)) continue;
    if (['yes', 'no'].every((value) => run.assumedMeasured.has(`${name}=${value}`))) continue;
    let tells = false;
    for (const value of ['yes', 'no']) {
      const variant = settleDone(world.documents, { ...world.asked, [`found:${name}`]: value });
      const runs =
        place.conditions.every((condition) => holds(condition, variant)) &&
        place.optional.every((id) => variant[`done:${id}`] === 'yes');
      if (!runs || run.assumedMeasured.has(`${name}=${value}`)) continue;
      run.assumedMeasured.add(`${name}=${value}`);
      tells = true;
    }
    if (tells) found(run, 'found-without-measure', { item: name, side: '' }, path);
  }
}

/** `part-hangs-on-line`, when a step ends: what came off, or undone, in it while a line still ties it. */
function hangingOnLines(run: Run): void {
  const seen = new Set<Part>();
  for (const { part, path } of [...run.step.loosened].reverse()) {
    if (seen.has(part)) continue;
    seen.add(part);
    if (part.granted) continue; // what another finding took to be off is where it was
    const away = part.state === 'off' || part.state === 'discarded';
    // Its place is taken: the line is the new one's.
    if (
      away &&
      related(run.world, part, part.name).some(
        (one) => one.name !== part.name && (one.state === 'fitted' || one.state === 'swung'),
      )
    )
      continue;
    const on = part.state === 'fitted' || part.state === 'swung' || part.state === 'off-with';
    const undone = part.joints.length > 0 && part.joints.every((joint) => joint.position === 'out');
    // What is off stands on no aid any more: it must be tied up, or the line must.
    const assumed = run.world.hanging.some((one) => one.part === part && one.assumedHeld);
    const tied = holdOn(run.world, part) || part.assumedHeld || assumed;
    if (!on && !away) continue;
    if ((on && !undone) || (away ? tied : held(run.world, part))) continue;
    const lines = allLines(run.world)
      .filter((line) => connected(line) && spanned(run.world, line).includes(part))
      .filter((line) => !away || !holdOn(run.world, line));
    for (const line of lines) found(run, 'part-hangs-on-line', { item: line.name, side: line.label }, path);
    if (lines.length > 0 && run.judged) part.assumedHeld = true;
    for (const line of lines) line.granted = true;
  }
}
