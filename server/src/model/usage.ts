/** What a guide says of names by using them: needed for names that no file declares. */

import { BOTH, namedBeside, narrowed, stepSides } from './guards';
import type { OperationOutline } from './outline';
import { bound, type Frame, type Runs } from './runs';
import type { Cursor } from './source';
import { JOINT_VERBS, METAL_VERBS, NAMED, PART_VERBS, type SubKind, VERBS, type VerbInfo } from './verbs';

export interface Usage {
  readonly name: string;
  /** Some operation on it stands under a `side`. */
  sided: boolean;
  /** Verbs are used on it that only a line, or only a part, is the target of. */
  asLine: boolean;
  asPart: boolean;
  /** The first verb used on it or on what belongs to it, in running order; null where none is. */
  first: string | null;
  /** It is named as a whole where its joints are meant. */
  asJoint: boolean;
  /** Its metal is worked. */
  metal: boolean;
  /** How often it is named, and where the guide itself does so first. */
  count: number;
  cursor: Cursor | null;
  /** What stands behind the dot, in order of use. */
  readonly subs: Map<string, SubKind>;
  readonly subUses: Map<string, { count: number; readonly cursor: Cursor | null }>;
}

/**
 * @param given names in `given`, `leaves` and their like.
 * @param duties what `owes` names: it declares no thing, but may name a joint of one.
 */
export function usagesOf(
  runs: Runs,
  given: readonly string[],
  duties: readonly string[],
  givenOperations: readonly OperationOutline[],
): Map<string, Usage> {
  const collector = new Collector();
  const { main } = runs;
  const guideSide = narrowed(BOTH, main.outline.side, 'guide');
  for (const written of given) collector.name(written, '', NAMED.sub, guideSide.said);
  for (const operation of givenOperations) {
    collector.operation(main, operation, narrowed(guideSide, operation.side, 'operation').said);
  }
  for (const run of runs.steps) {
    const sides = stepSides(run);
    for (const operation of run.operations) {
      collector.operation(run.frame, operation, narrowed(sides, operation.side, 'operation').said);
    }
  }
  for (const written of duties) collector.aside(written, '');
  return collector.finish();
}

/** `check` and its like may name anything, and systems always exist: such verbs declare nothing. */
export function declares({ acts }: VerbInfo): boolean {
  return (acts.has('part') || acts.has('line')) && !(acts.has('words') && acts.has('spatial'));
}

class Collector {
  private readonly usages = new Map<string, Usage>();
  /** First verbs, and what stands behind dots, where a verb declares nothing. */
  private readonly firsts = new Map<string, string>();
  private readonly asides: { readonly name: string; readonly sub: string }[] = [];

  /** What verbs that declare nothing say of things that others declare is added last. */
  finish(): Map<string, Usage> {
    for (const { name, sub } of this.asides) {
      const usage = this.usages.get(name);
      if (usage !== undefined && !usage.subs.has(sub)) usage.subs.set(sub, NAMED.sub);
    }
    for (const [name, verb] of this.firsts) {
      const usage = this.usages.get(name);
      if (usage !== undefined) usage.first = verb;
    }
    return this.usages;
  }

  /** A name that is spoken of without being declared by it. */
  aside(written: string, verb: string): void {
    const [name = '', sub] = written.split('.');
    if (verb !== '' && !this.firsts.has(name)) this.firsts.set(name, verb);
    if (sub !== undefined && sub !== '') this.asides.push({ name, sub });
  }

  operation(frame: Frame, operation: OperationOutline, sided: boolean): void {
    const info = VERBS.get(operation.verb)!;
    const declaring = declares(info);
    for (const item of operation.target.items()) {
      if (declaring) this.written(frame, item, operation.verb, info.sub, sided);
      else if (item.text !== null) this.aside(bound(frame.bindings, item.text), operation.verb);
    }
    for (const item of namedBeside(operation)) this.written(frame, item, '', 'joint', sided);
    if (operation.verb === 'disconnect' || operation.verb === 'connect') this.ends(frame, operation);
  }

  name(written: string, verb: string, sub: SubKind, sided: boolean, cursor: Cursor | null = null): void {
    const dot = written.indexOf('.');
    const name = dot < 0 ? written : written.slice(0, dot);
    let usage = this.usages.get(name);
    if (usage === undefined) {
      usage = {
        name,
        sided: false,
        asLine: false,
        asPart: false,
        first: null,
        asJoint: false,
        metal: false,
        count: 0,
        cursor,
        subs: new Map(),
        subUses: new Map(),
      };
      this.usages.set(name, usage);
    }
    usage.sided ||= sided;
    usage.metal ||= METAL_VERBS.has(verb);
    usage.count++;
    if (verb !== '' && !this.firsts.has(name)) this.firsts.set(name, verb);
    usage.asLine ||= VERBS.get(verb)?.lines === true;
    usage.asPart ||= PART_VERBS.has(verb);
    if (dot < 0) {
      usage.asJoint ||= JOINT_VERBS.has(verb) || verb === 'unbolt' || verb === 'bolt-up';
      return;
    }
    const [first = ''] = written.slice(dot + 1).split('.');
    if (first === '') return;
    // What is drilled is a hole, though it was cleaned before.
    const known = usage.subs.get(first);
    if (known === undefined || (known === 'face' && sub === 'hole')) usage.subs.set(first, sub);
    const use = usage.subUses.get(first);
    if (use === undefined) usage.subUses.set(first, { count: 1, cursor });
    else use.count++;
  }

  private written(frame: Frame, cursor: Cursor, verb: string, sub: SubKind, sided: boolean): void {
    if (cursor.text === null) return;
    const own = frame.use === null ? cursor : null;
    this.name(bound(frame.bindings, cursor.text), verb, sub, sided, own);
  }

  private ends(frame: Frame, operation: OperationOutline): void {
    const ends = operation.cursor.get('end')?.texts ?? [];
    for (const item of operation.target.items()) {
      if (item.text === null) continue;
      const usage = this.usages.get(bound(frame.bindings, item.text));
      for (const end of ends) if (usage !== undefined && !usage.subs.has(end)) usage.subs.set(end, 'end');
    }
  }
}
