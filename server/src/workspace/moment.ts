import { changeInWords } from '../check/changes';
import { cubesOf } from '../check/sentences';
import type { Cube } from '../findings/finding';
import type { Instance } from '../model/instances';
import type { BoundStep, Line, Model, Target, Thing } from '../model/model';
import type { Rulebook } from '../rules/rulebook';
import { end, joint, line, named, part, work } from '../simulate/items';
import { runGuide } from '../simulate/run';
import type { Simulation } from '../simulate/simulation';
import { type Item, keyOf, type Value } from '../simulate/state';
import { Watchers } from '../simulate/watchers';
import type { Diagram } from '../variants/diagram';

/**
 * A guide run up to a place in it.
 * @param step path of the step, `2.3`, whether the model has it or not.
 * @param done how many of its operations are done, by their number as written: 0 is before the step.
 */
export function runUpTo(model: Model, rulebook: Rulebook, step: string, done: number): Simulation | null {
  const at = model.steps.findIndex((one) => one.path === step);
  const from = at >= 0 ? at : model.steps.findIndex((one) => isLater(one.path, step));
  const before = from < 0 ? model.steps : model.steps.slice(0, from);
  const within: BoundStep[] = [];
  for (const one of at < 0 || done === 0 ? [] : model.steps.slice(at)) {
    if (one.path !== step && !one.path.startsWith(`${step}.`)) break;
    // The steps of a `use` belong to the operation that uses them.
    if (one.path !== step) {
      if (numberOf(one.path.slice(step.length + 1)) <= done) within.push(one);
    } else
      within.push({
        ...one,
        operations: one.operations.filter(({ path }) => numberOf(path.slice(step.length + 1)) <= done),
      });
  }
  const watchers = new Watchers(rulebook.watchers.all.map(({ ended: _ended, ...watcher }) => watcher));
  try {
    const run = runGuide({ ...model, steps: [...before, ...within] }, watchers);
    for (;;) {
      const next = run.next();
      if (next.done === true) return next.value;
    }
  } catch {
    // A rule that fails is told by the check; here nothing is known.
    return null;
  }
}

const numberOf = (path: string): number => Number.parseInt(path, 10) || 0;

/** Whether a step of the guide itself stands behind another, by their paths. */
export function isLater(path: string, than: string): boolean {
  const [section = 0, step = 0] = path.split('.').map(numberOf);
  const [otherSection = 0, otherStep = 0] = than.split('.').map(numberOf);
  return section > otherSection || (section === otherSection && step > otherStep);
}

/** One thing that is known of an item, and in which variants and on which sides. */
export interface StateWords {
  readonly words: string;
  readonly sides: readonly string[];
  readonly variants: readonly Cube[];
}

/** What state a target is in, in the words of the trade; several where sides or variants differ. */
export function stateOf(sim: Simulation, target: Target): StateWords[] {
  const { model } = sim;
  const { diagrams } = model.world;
  const bySet = new Map<string, { words: string; set: Diagram; sides: Set<string>; most: Diagram }>();
  for (const { item, at, presence } of stateItemsOf(target)) {
    const within = diagrams.and(presence, model.universe);
    if (within === 0) continue;
    for (const { value, set } of sim.state.valuesWithin(item, within)) {
      const words = inWords(item, value);
      const key = `${words}\n${set}`;
      const known = bySet.get(key);
      if (known === undefined) bySet.set(key, { words, set, sides: new Set([at.label]), most: within });
      else known.sides.add(at.label);
    }
  }
  return [...bySet.values()].map(({ words, set, sides, most }) => ({
    words,
    sides: [...sides].filter((side) => side !== ''),
    variants: diagrams.implies(most, set) ? [] : cubesOf(model, set),
  }));
}

const inWords = (item: Item, value: Value): string =>
  changeInWords(keyOf(item), value, value)?.to ?? String(value);

interface StateItem {
  readonly item: Item;
  readonly at: Instance;
  readonly presence: Diagram;
}

/** The items that say how a target stands. */
export function stateItemsOf(target: Target): StateItem[] {
  const each = (
    thing: Thing,
    item: (at: Instance) => Item,
    presence: Diagram = thing.presence,
  ): StateItem[] => thing.instances.map((at) => ({ item: item(at), at, presence }));
  switch (target.type) {
    case 'joint':
    case 'piece':
      return each(target.joint.part, (at) => joint.position(target.joint, at), target.joint.presence);
    case 'part':
      return each(target.part, (at) => part.state(target.part, at));
    case 'end':
      return each(target.end.part, (at) => end.freed(target.end, at));
    case 'hole':
      return each(target.hole.part, (at) => work.hole(target.hole, at));
    case 'face':
      return each(target.face.part, (at) => work.edge(target.face, at));
    case 'line':
      return target.lines.flatMap((one) => [
        ...each(one, (at) => line.state(one, at)),
        ...endsOf(one, target.end).flatMap((name) => each(one, (at) => line.connected(one, name, at))),
      ]);
    default:
      return [];
  }
}

const endsOf = (one: Line, end: string | null): readonly string[] => (end === null ? one.ends : [end]);

type Wish = (value: Value) => boolean;
const isOneOf =
  (...values: readonly Value[]): Wish =>
  (value) =>
    values.includes(value);

/** In which position of a joint a verb is of use to it. */
const JOINT_WISHES: Readonly<Record<string, Wish>> = {
  loosen: isOneOf('tight', 'final', 'snug'),
  remove: isOneOf('tight', 'final', 'snug', 'started', 'loose'),
  start: isOneOf('out'),
  snug: isOneOf('started', 'loose'),
  torque: isOneOf('started', 'loose', 'snug'),
};
const PART_WISHES: Readonly<Record<string, Wish>> = {
  unbolt: isOneOf('fitted', 'swung'),
  'bolt-up': isOneOf('off', 'boxed', 'offered'),
  fit: isOneOf('off', 'boxed', 'offered'),
  offer: isOneOf('boxed', 'off'),
  withdraw: isOneOf('offered'),
  swing: isOneOf('fitted'),
  discard: isOneOf('off'),
};
const BOLTING: ReadonlySet<string> = new Set(['unbolt', 'bolt-up']);
const CONNECTION_WISHES: Readonly<Record<string, Wish>> = {
  disconnect: isOneOf(true),
  connect: isOneOf(false),
};
const CLIP_WISHES: Readonly<Record<string, Wish>> = { unclip: isOneOf(true), clip: isOneOf(false) };

/** Whether a verb is of use to a target as it stands, in some variant and on some side; null where the verb does not say. */
export function isSensible(sim: Simulation, verb: string, target: Target, within: Diagram): boolean | null {
  const some = (items: readonly StateItem[], wish: Wish): boolean =>
    items.some(({ item, presence }) => {
      const set = sim.model.world.diagrams.and(presence, within);
      return set !== 0 && sim.state.where(item, set, wish) !== 0;
    });
  if (target.type === 'joint') {
    const wish = JOINT_WISHES[verb];
    return wish === undefined ? null : some(stateItemsOf(target), wish);
  }
  if (target.type === 'part') {
    const one = target.part;
    const items = stateItemsOf(target);
    const wish = PART_WISHES[verb];
    // What has no joints is not bolted; of what no file declares they are not known.
    if (BOLTING.has(verb) && one.joints.size === 0 && one.origin !== 'implied') return false;
    if (wish !== undefined) return some(items, wish);
    if (verb === 'release') return some(heldOf(one.name, one), (value) => value !== '');
    if (verb !== 'remove') return null;
    // A part comes off when nothing holds it any more.
    const holding = [...one.joints.values()].some((it) =>
      some(
        one.instances.map((at) => ({ item: joint.position(it, at), at, presence: it.presence })),
        (value) => value !== 'out',
      ),
    );
    return some(items, isOneOf('fitted', 'swung')) && !holding;
  }
  if (target.type === 'line') {
    const items = (item: (one: Line, at: Instance) => Item) =>
      target.lines.flatMap((one) =>
        one.instances.map((at) => ({ item: item(one, at), at, presence: one.presence })),
      );
    const connected = CONNECTION_WISHES[verb];
    if (connected !== undefined)
      return target.lines.some((one) =>
        endsOf(one, target.end).some((name) =>
          some(
            items((it, at) => line.connected(it, name, at)),
            connected,
          ),
        ),
      );
    const clipped = CLIP_WISHES[verb];
    if (clipped !== undefined)
      return some(
        items((it, at) => line.clipped(it, at)),
        clipped,
      );
    if (verb === 'release')
      return target.lines.some((one) => some(heldOf(one.name, one), (value) => value !== ''));
    if (verb === 'route')
      return some(
        items((it, at) => line.state(it, at)),
        isOneOf('boxed', 'off'),
      );
  }
  return null;
}

const heldOf = (name: string, thing: Thing): StateItem[] =>
  thing.instances.map((at) => ({ item: named.hold(name, at), at, presence: thing.presence }));
