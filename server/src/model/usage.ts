/** What a guide says of names by using them: needed for names that no file declares. */

import { BOTH, namedBeside, narrowed, stepSides } from './guards';
import type { OperationOutline } from './outline';
import { bound, type Frame, type Runs } from './runs';
import type { Cursor } from './source';
import { ARRIVES_BY, JOINT_VERBS, NAMED, PART_VERBS, type SubKind, VERBS, type VerbInfo } from './verbs';

export interface Usage {
  readonly name: string;
  /** Some operation on it stands under a `side`. */
  sided: boolean;
  /** What its first telling verb takes it for. */
  type: 'part' | 'line' | null;
  /** The first thing done is to fit, offer, route or connect it. */
  arrives: boolean;
  /** It is named where a joint belongs. */
  asJoint: boolean;
  /** What stands behind the dot, in order of use. */
  readonly subs: Map<string, SubKind>;
}

/** @param given the state the guide starts from, and what else names things: they are there before the first operation. */
export function usagesOf(
  runs: Runs,
  given: readonly string[],
  givenOperations: readonly OperationOutline[],
): Map<string, Usage> {
  const collector = new Collector();
  const { main } = runs;
  for (const written of given) collector.name(written, '', NAMED.sub, false);
  for (const operation of givenOperations) {
    collector.operation(
      main,
      operation,
      narrowed(narrowed(BOTH, main.outline.root.get('side'), false), operation.side, false).said,
    );
  }
  for (const run of runs.steps) {
    const sides = stepSides(run);
    for (const operation of run.operations) {
      collector.operation(run.frame, operation, narrowed(sides, operation.side, false).said);
    }
  }
  return collector.usages;
}

/** `check` and its like may name anything, and systems always exist: such verbs declare nothing. */
function declares({ acts }: VerbInfo): boolean {
  return (acts.has('part') || acts.has('line')) && !(acts.has('words') && acts.has('spatial'));
}

class Collector {
  readonly usages = new Map<string, Usage>();

  operation(frame: Frame, operation: OperationOutline, sided: boolean): void {
    const info = VERBS.get(operation.verb)!;
    if (declares(info)) {
      for (const item of operation.target.items()) this.written(frame, item, operation.verb, info.sub, sided);
    }
    for (const item of namedBeside(operation)) this.written(frame, item, '', 'joint', sided);
    if (operation.verb === 'disconnect' || operation.verb === 'connect') this.ends(frame, operation);
  }

  name(written: string, verb: string, sub: SubKind, sided: boolean): void {
    const dot = written.indexOf('.');
    const name = dot < 0 ? written : written.slice(0, dot);
    let usage = this.usages.get(name);
    if (usage === undefined) {
      usage = {
        name,
        sided: false,
        type: null,
        arrives: ARRIVES_BY.has(verb),
        asJoint: false,
        subs: new Map(),
      };
      this.usages.set(name, usage);
    }
    usage.sided ||= sided;
    const info = VERBS.get(verb);
    usage.type ??= info?.lines ? 'line' : PART_VERBS.has(verb) ? 'part' : null;
    if (dot < 0) {
      usage.asJoint ||= JOINT_VERBS.has(verb);
      return;
    }
    const [first = ''] = written.slice(dot + 1).split('.');
    if (first !== '' && !usage.subs.has(first)) usage.subs.set(first, sub);
  }

  private written(frame: Frame, cursor: Cursor, verb: string, sub: SubKind, sided: boolean): void {
    if (cursor.text !== null) this.name(bound(frame.bindings, cursor.text), verb, sub, sided);
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
