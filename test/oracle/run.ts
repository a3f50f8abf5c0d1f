// One run of a guide in one variant: where it stands, what it has found, what it remembers.
import type { RuleBook } from './rulebook.ts';
import type { Joint, Part, Target } from './things.ts';
import type { World } from './world.ts';

export interface OracleFinding {
  rule: string;
  operation: string;
  item: string;
  side: string;
}

/** What a step says of itself. */
export interface StepFrame {
  people: number;
  caution: boolean;
  covers: string[];
  loosened: { part: Part; path: string }[]; // parts that came off, or lost their last joint or an aid, in this step
}

/** One instance that an operation ran on: what the rule language watches. */
export interface Event {
  verb: string;
  target: Target;
  raw: Record<string, unknown>;
  path: string;
  occurrence: number; // which execution of an operation it belongs to
  assumedBy?: string; // the rule that took it for granted; no other rule knows of it
}

export interface Pending {
  rule: string;
  key: string;
  path: string;
  target: Target;
  open: boolean;
}

export interface Run {
  world: World;
  rules: RuleBook;
  judged: boolean; // false while `given` is laid
  path: string;
  occurrence: number;
  raw: Record<string, unknown>;
  sides: string[];
  step: StepFrame;
  coversAt: Map<string, string[]>;
  events: Event[];
  pending: Pending[];
  askNext: { rule: Record<string, unknown>; event: Event }[];
  told: Map<string, () => boolean>; // never-while: whether the state still is so
  hardwareUsed: Set<string>;
  worked: boolean; // the guide has done something to more than words
  granted: Set<string>; // keys of what has no state of its own and a finding took for granted
  wasUnder: Map<unknown, Set<string>>; // aids that ever stood at a corner or under a part
  onceDone: Set<string>; // at-most-once: rule and instance
  boxCount: Map<string, number>;
  overBox: Set<string>;
  otherTyre: { item: string; path: string } | undefined; // the first wheel of another size that went on
  assumedMeasured: Set<string>; // a branch's name and value, once told as not measured
  findings: Map<string, OracleFinding>;
}

export function emptyStep(): StepFrame {
  return { people: 1, caution: false, covers: [], loosened: [] };
}

export function newRun(world: World, rules: RuleBook): Run {
  return {
    world,
    rules,
    judged: false,
    path: '0',
    occurrence: 0,
    raw: {},
    sides: ['left', 'right'],
    step: emptyStep(),
    coversAt: new Map(),
    events: [],
    pending: [],
    askNext: [],
    told: new Map(),
    hardwareUsed: new Set(),
    worked: false,
    granted: new Set(),
    wasUnder: new Map(),
    onceDone: new Set(),
    boxCount: new Map(),
    overBox: new Set(),
    otherTyre: undefined,
    assumedMeasured: new Set(),
    findings: new Map(),
  };
}

/** A finding of a rule by its id, unless a caution of the step that it stands in covers it. */
export function tell(run: Run, rule: string, item: string, side: string, path: string = run.path): void {
  if (!run.judged || run.coversAt.get(path)?.includes(rule)) return;
  const finding = { rule, operation: path, item, side };
  run.findings.set(JSON.stringify(finding), finding);
}

/** A finding of a built-in rule, under the id of each pack entry that names it and is on. */
export function found(
  run: Run,
  builtIn: string,
  target: { item: string; side: string },
  path: string = run.path,
): void {
  for (const rule of run.rules.builtInIds(builtIn)) tell(run, rule, target.item, target.side, path);
}

/** The path at which a debt opens now: what was owed already stays where it was; what is given owes nothing. */
export function open(run: Run, debt: string | undefined): string | undefined {
  if (debt !== undefined) return debt;
  return run.judged ? run.path : undefined;
}

/** Sides and qualifiers to say where: item and side of a part. */
export function named(part: Part): { item: string; side: string } {
  return { item: part.name, side: part.label };
}

export function namedJoint(joint: Joint): { item: string; side: string } {
  return { item: joint.item, side: joint.part.label };
}
