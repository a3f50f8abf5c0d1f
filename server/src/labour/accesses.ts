import type { BoundOperation, Model, Side, Thing } from '../model/model';
import type { Diagram } from '../variants/diagram';
import type { Access } from './standard-times';

/** Verbs that lay open what a part covers, and those that cover it again. */
const OPENING = new Set(['unbolt', 'remove', 'swing', 'discard']);
const CLOSING = new Set(['bolt-up', 'fit']);

interface Open {
  readonly set: Diagram;
  /** Path of the step that got there. */
  readonly step: string;
  /** The guide itself takes off what covers it, in the time that this takes. */
  readonly byGuide: boolean;
}

/** An access as a step needs it: in these variants it takes its time (`sharedWith` null), or a step before has opened it. */
export interface Need {
  readonly set: Diagram;
  readonly side: Side;
  readonly sharedWith: string | null;
  /** The step before takes the cover off itself. */
  readonly byGuide: boolean;
}

/**
 * What has been got to, as a guide goes on. An access counts once: it stays open until a part of that name or kind is put
 * back, be it in another section. Where the guide itself takes such a part off, that is its own time, and access is free.
 */
export class Accesses {
  private readonly open = new Map<string, Open[]>();

  constructor(private readonly model: Model) {}

  /** An operation of the guide on a part: it may open or cover what the part's name and kinds stand for. */
  follow(operation: BoundOperation, part: Thing, set: Diagram, sides: readonly Side[], step: string): void {
    const opens = OPENING.has(operation.verb);
    if (!opens && !CLOSING.has(operation.verb)) return;
    const { diagrams } = this.model.world;
    // What has no sides of its own covers both.
    const over: readonly Side[] = part.sided ? ['', ...sides] : ['', 'left', 'right'];
    for (const name of new Set([part.name, ...part.kinds])) {
      for (const side of over) {
        const key = keyOf(name, side);
        const others = (this.open.get(key) ?? []).flatMap((one) => {
          const left = diagrams.minus(one.set, set);
          return left === 0 ? [] : [{ ...one, set: left }];
        });
        this.open.set(key, opens ? [...others, { set, step, byGuide: true }] : others);
      }
    }
  }

  /** A step needs an access in some variants, on some sides; where it is not open yet, it is from now on. */
  need(access: Access, set: Diagram, sides: readonly Side[], step: string): Need[] {
    const { diagrams } = this.model.world;
    const found: Need[] = [];
    for (const side of access.eachSide ? sides : ([''] as const)) {
      const key = keyOf(access.name, side);
      const list = this.open.get(key) ?? [];
      let rest = set;
      for (const one of list) {
        const both = diagrams.and(one.set, rest);
        if (both === 0) continue;
        found.push({ set: both, side, sharedWith: one.step, byGuide: one.byGuide });
        rest = diagrams.minus(rest, one.set);
      }
      if (rest === 0) continue;
      found.push({ set: rest, side, sharedWith: null, byGuide: false });
      this.open.set(key, [...list, { set: rest, step, byGuide: false }]);
    }
    return found;
  }
}

const keyOf = (name: string, side: Side): string => `${side}\n${name}`;
