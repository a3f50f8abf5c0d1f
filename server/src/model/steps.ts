/** Steps with what they say of people, time and cautions, and their operations bound. */

import type { Place } from '../findings/finding';
import { type Sides, stepSides } from './guards';
import type { QuantityReader } from './measures';
import type { BoundOperation, BoundStep, BoundTime, Side } from './model';
import { bindOperation } from './operations';
import type { StepOutline } from './outline';
import { reportEmptied, withStations } from './qualifiers';
import { type Frame, type RunStep, reportOf, usesOf } from './runs';
import type { OperationScope } from './scope';
import { type Cursor, itemsAt, textAt, textsAt } from './source';
import { titleOf } from './titles';

const NO_STATIONS: ReadonlyMap<string, readonly string[]> = new Map();

/** Binds every step in the order in which it runs. */
export function bindSteps(runs: readonly RunStep[], scope: OperationScope): BoundStep[] {
  return runs.map((run) => bindStep(run, scope));
}

function bindStep(run: RunStep, scope: OperationScope): BoundStep {
  const { frame, step } = run;
  const sides = stepSides(run);
  const emptied = reportEmptied(sides, frame, scope.report);
  let stations = NO_STATIONS;
  for (const cursor of [frame.outline.root, step.section.cursor, step.cursor]) {
    stations = withStations(stations, cursor, scope, frame);
  }
  const { set, understood } = guardOf(frame, step, scope);
  const operations: BoundOperation[] = [];
  const named: { readonly bound: BoundOperation; readonly side: Cursor | null }[] = [];
  let sound = !emptied && wholly(step);
  let lost = emptied || !wholly(step) || textLost(step);
  const around = { guard: set, found: scope.guards.foundAround(frame, step) };
  if (sides.emptied === null) {
    for (const outline of run.operations) {
      const made = bindOperation(frame, around, outline, sides, stations, scope);
      if (made.operation !== null) {
        operations.push(made.operation);
        named.push({ bound: made.operation, side: outline.side });
      }
      if (!made.sound) sound = false;
      lost ||= made.lost;
    }
  }
  const written = step.cursor.get('time');
  const time = timeOf(written, scope.quantities);
  const uses = step.operations.length > 0 && step.operations.every((outline) => outline.verb === 'use');
  return {
    path: `${frame.prefix}${step.path}`,
    id: step.id,
    place: step.cursor.header,
    uses: usesOf(frame).map(({ operation, section }) => ({
      place: operation.target.place,
      section: section.title,
    })),
    title: titleOf(step, named),
    guard: set,
    passes: passesOf(sides),
    operations,
    people: peopleOf(step),
    skill: skillAt(step.cursor),
    skillAround: skillAround(frame, step),
    time,
    timeLost: time === null && (written !== null || lostKeys(step).has('time')),
    hasCaution: step.cursor.get('caution') !== null,
    covered: new Set(itemsAt(step.cursor, 'caution').flatMap((caution) => textsAt(caution, 'covers'))),
    // What a used section holds counts with its own steps.
    checked: sound && understood && (operations.length > 0 || uses || (sides.emptied !== null && !emptied)),
    lost,
    section: step.section.number,
    ...draftOf(step),
  };
}

function draftOf({ cursor }: StepOutline): { readonly draft?: Place } {
  const draft = cursor.get('draft');
  if (draft?.value !== true) return {};
  const { uri, span } = draft.keyPlace;
  return { draft: { uri, span: { start: span.start, end: Math.max(span.end, draft.place.span.end) } } };
}

/** The variants in which a step runs, and whether all of its conditions were understood. What stands around a used section is told there. */
function guardOf(frame: Frame, step: StepOutline, { reader, guards, world, report }: OperationScope) {
  const around = reader.set(world, guards.frame(frame), frame.use === null ? report : null);
  const own = reader.set(world, guards.ownStep(frame, step), reportOf(frame, report));
  return {
    set: world.diagrams.and(around.set, own.set),
    understood: around.understood && own.understood,
  };
}

/** False where an operation of the step could not be read. */
function wholly(step: StepOutline): boolean {
  const { lost } = step.cursor.document;
  const keys = lost.get(step.cursor.value as object);
  if (keys?.has('do') || keys?.has('when')) return false;
  const written = step.cursor.get('do')?.items().length ?? 0;
  return (
    written === step.operations.length &&
    step.operations.every(({ cursor }) => !lost.has(cursor.value as object))
  );
}

/** The keys of a step whose values could not be read. */
const lostKeys = ({ cursor }: StepOutline): ReadonlySet<string> =>
  cursor.document.lost.get(cursor.value as object) ?? NONE;

const NONE: ReadonlySet<string> = new Set();

/** True for a step of a text alone that could not be read. */
function textLost({ cursor }: StepOutline): boolean {
  return cursor.get('do') === null && cursor.document.lost.get(cursor.value as object)?.has('text') === true;
}

function passesOf(sides: Sides): readonly (readonly Side[])[] {
  if (sides.emptied !== null || sides.left.length === 0) return [];
  return sides.each ? sides.left.map((side) => [side]) : [sides.left];
}

function peopleOf(step: StepOutline): number {
  const people = Number(textAt(step.cursor, 'people') ?? 1);
  return Number.isInteger(people) && people > 0 ? people : 1;
}

const skillAt = (cursor: Cursor): string | null => textAt(cursor, 'skill')?.trim() || null;

/** Whom the section of a step names; where it names nobody and is used elsewhere, whom the using step does. */
function skillAround(frame: Frame, step: StepOutline): string | null {
  const own = skillAt(step.section.cursor);
  if (own !== null || frame.use === null) return own;
  return skillAt(frame.use.step.cursor) ?? skillAround(frame.use.frame, frame.use.step);
}

function timeOf(cursor: Cursor | null, quantities: QuantityReader): BoundTime | null {
  if (cursor === null) return null;
  const each = cursor.get('each-side');
  return durationOf(each ?? cursor, each !== null, quantities);
}

/** A figure, a range (`4-6 min`: likely in the middle) or three figures. */
function durationOf(cursor: Cursor, eachSide: boolean, quantities: QuantityReader): BoundTime | null {
  if (!cursor.isMap) {
    const time = quantities.read(cursor.text, 'time');
    return time === null ? null : { low: time.low, likely: time.nominal, high: time.high, eachSide };
  }
  const [low, likely, high] = ['low', 'likely', 'high'].map(
    (key) => quantities.read(textAt(cursor, key), 'time')?.nominal,
  );
  const middle = likely ?? (low !== undefined && high !== undefined ? (low + high) / 2 : (low ?? high));
  if (middle === undefined) return null;
  return {
    low: Math.min(low ?? middle, middle),
    likely: middle,
    high: Math.max(high ?? middle, middle),
    eachSide,
  };
}
