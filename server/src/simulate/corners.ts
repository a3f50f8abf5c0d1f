/**
 * Where things are on the vehicle: axle groups, their corners, which corners a part belongs to, what limits the drop of
 * an axle, which parts are of suspension or steering. Worked out once from the assembly graph (schemas/semantics.md §3).
 */

import { belongTogether, type Instance, matching } from '../model/instances';
import type { Line, Model, Part, Side, Thing } from '../model/model';

/** An axle, or a wheel's place where there is no axle. */
export interface Group {
  readonly name: string;
  readonly axle: Part | null;
  /** Instance of the axle (or the wheel) that the group is, for its place. */
  readonly at: Instance;
}

/** A group and a side. */
export interface Corner {
  readonly key: string;
  readonly group: Group;
  readonly side: Side;
  readonly wheels: readonly { readonly wheel: Part; readonly at: Instance }[];
}

const FIXED = new Set(['frame', 'body', 'ground', 'vehicle']);
const words = (name: string) => name.split('-');

/** Whether a name or place says front or rear. */
export const saysEnd = (name: string, end: string) => words(name).includes(end);

/** The wheel that stood there first: of one that replaces another, that one. */
function firstOf(wheel: Part): Part {
  const seen = new Set<Part>([wheel]);
  let first = wheel;
  for (;;) {
    const old = first.replaces.find((one): one is Part => one.type === 'part' && one.attributes.wheel);
    if (old === undefined || seen.has(old)) return first;
    seen.add(old);
    first = old;
  }
}

/** The parts that join one part alone, by that part. */
function joinedByOne(parts: readonly Part[]): Map<Part, Part[]> {
  const found = new Map<Part, Part[]>();
  for (const part of parts) {
    const [one] = part.joins;
    if (one === undefined || typeof one === 'string' || part.joins.some((join) => join !== one)) continue;
    const list = found.get(one);
    if (list === undefined) found.set(one, [part]);
    else list.push(part);
  }
  return found;
}

export class Corners {
  readonly all: readonly Corner[];
  private readonly closures = new Map<Part, ReadonlySet<Part>>();
  private readonly ofPart = new Map<string, readonly Corner[]>();
  private readonly moving = new Map<Corner, ReadonlySet<Part>>();
  private readonly gear = new Map<Corner, readonly { readonly part: Part; readonly at: Instance }[]>();
  private readonly joined: ReadonlyMap<Part, readonly Part[]>;
  private readonly going = new Map<Part, readonly Part[]>();
  private readonly parts: readonly Part[];
  private readonly lines: readonly Line[];

  constructor(readonly model: Model) {
    const things = [...model.things.values()];
    this.parts = things.filter((thing): thing is Part => thing.type === 'part');
    this.lines = things.filter((thing): thing is Line => thing.type === 'line');
    this.joined = joinedByOne(this.parts);
    this.all = this.makeCorners();
  }

  get everyPart(): readonly Part[] {
    return this.parts;
  }

  get everyLine(): readonly Line[] {
    return this.lines;
  }

  /** A part and all it reaches through `joins`, without frame and body. */
  closure(part: Part): ReadonlySet<Part> {
    const found = this.closures.get(part);
    if (found !== undefined) return found;
    const reached = new Set<Part>([part]);
    for (const at of reached) for (const next of at.joins) if (typeof next !== 'string') reached.add(next);
    this.closures.set(part, reached);
    return reached;
  }

  /** The parts that join this one and nothing else. */
  joinedOnlyTo(part: Part): readonly Part[] {
    return this.joined.get(part) ?? [];
  }

  /** The parts that may come off together with one: what joins only it, and what joins only that. */
  goWith(part: Part): readonly Part[] {
    const found = this.going.get(part);
    if (found !== undefined) return found;
    const reached = new Set<Part>([part]);
    for (const at of reached) for (const next of this.joinedOnlyTo(at)) reached.add(next);
    const made = reached.size === 1 ? [] : this.parts.filter((one) => one !== part && reached.has(one));
    this.going.set(part, made);
    return made;
  }

  /** Whether a part reaches frame or body through its joins. */
  private reachesFrame(part: Part | string): boolean {
    if (typeof part === 'string') return FIXED.has(part);
    for (const member of this.closure(part))
      if (member.joins.some((next) => typeof next === 'string' && FIXED.has(next))) return true;
    return false;
  }

  /** The corners of one instance of a part; empty where it has none (placeless). */
  of(part: Part, at: Instance): readonly Corner[] {
    const key = `${part.name}${at.key}`;
    const found = this.ofPart.get(key);
    if (found !== undefined) return found;
    let made = this.all.filter(
      (corner) =>
        (at.side === '' || corner.side === '' || at.side === corner.side) && this.shares(part, at, corner),
    );
    if (made.length === 0) {
      const end = ['front', 'rear'].find((word) => saysEnd(part.name, word));
      if (end !== undefined)
        made = this.atEnd(end).filter((corner) => at.side === '' || at.side === corner.side);
    }
    this.ofPart.set(key, made);
    return made;
  }

  /** As `of`, but all corners for what is placeless. */
  ofOrAll(part: Part, at: Instance): readonly Corner[] {
    const own = this.of(part, at);
    return own.length > 0 ? own : this.all;
  }

  /** The corners of the parts a line spans, on its own side. */
  ofLine(line: Line, at: Instance): readonly Corner[] {
    const made = new Set<Corner>();
    for (const span of line.spans) {
      if (typeof span === 'string') continue;
      for (const instance of matching(span.instances, at))
        for (const corner of this.of(span, instance))
          if (at.side === '' || corner.side === at.side) made.add(corner);
    }
    if (made.size === 0 && line.spans.length === 0) {
      const end = ['front', 'rear'].find((word) => saysEnd(line.name, word));
      if (end !== undefined)
        for (const corner of this.atEnd(end)) if (at.side === '' || at.side === corner.side) made.add(corner);
    }
    return this.all.filter((corner) => made.has(corner));
  }

  /** Corners of the front or the rear; all of them where no group says so. */
  atEnd(end: string): readonly Corner[] {
    const there = this.all.filter(
      ({ group }) => saysEnd(group.name, end) || group.at.place === end || saysEnd(group.at.place, end),
    );
    return there.length > 0 ? there : this.all;
  }

  /** The instances of parts that lie between frame or body and a wheel at this corner, with what they stand on. */
  runningGear(corner: Corner): readonly { readonly part: Part; readonly at: Instance }[] {
    const found = this.gear.get(corner);
    if (found !== undefined) return found;
    const here = (part: Part, at: Instance) => this.of(part, at).includes(corner);
    const spanning = this.parts.filter(
      (part) => part.origin !== 'implied' && this.spansToWheel(part, corner),
    );
    const made = this.parts.flatMap((part) =>
      part.instances
        .filter((at) => {
          if (part.origin === 'implied')
            return (
              this.ofOrAll(part, at).includes(corner) &&
              (part.attributes.system === 'suspension' || part.attributes.system === 'steering')
            );
          if (spanning.includes(part) && here(part, at)) return true;
          // What such a part stands on takes the weight too: a spring's seats, a bar's clamps.
          return (
            !part.attributes.wheel &&
            spanning.some(
              (other) =>
                other.attributes.system !== 'driveline' &&
                other.joins.includes(part) &&
                other.instances.some((otherAt) => belongTogether(otherAt, at) && here(other, otherAt)),
            )
          );
        })
        .map((at) => ({ part, at })),
    );
    this.gear.set(corner, made);
    return made;
  }

  /** Whether a part is what a wheel hangs on, or reaches from there to frame or body by another way. */
  private spansToWheel(part: Part, corner: Corner): boolean {
    const wheels = corner.wheels.map(({ wheel }) => this.closure(wheel));
    const carried = corner.group.axle === null ? wheels : [...wheels, this.closure(corner.group.axle)];
    if (wheels.some((closure) => closure.has(part) && part.attributes.wheel === false)) return true;
    if (part.attributes.wheel) return false;
    return part.joins.some(
      (join, index) =>
        typeof join !== 'string' &&
        carried.some((closure) => [...this.closure(join)].some((member) => closure.has(member))) &&
        part.joins.some((other, place) => place !== index && this.reachesFrame(other)),
    );
  }

  /** Whether a line crosses from what moves with this corner to something else. */
  crosses(line: Line, at: Instance, corner: Corner): boolean {
    if (at.side !== '' && corner.side !== '' && at.side !== corner.side) return false;
    const moving = this.movingWith(corner);
    const on = line.spans.filter((span) => typeof span !== 'string' && moving.has(span)).length;
    return on > 0 && on < line.spans.length;
  }

  /** The parts that go down with a corner: its axle, or what its wheels hang on, and its arms. */
  private movingWith(corner: Corner): ReadonlySet<Part> {
    const known = this.moving.get(corner);
    if (known !== undefined) return known;
    const moving = new Set<Part>();
    this.moving.set(corner, moving);
    for (const part of this.everyPart)
      if (part.attributes.arm && part.instances.some((at) => this.of(part, at).includes(corner)))
        moving.add(part);
    if (corner.group.axle !== null) moving.add(corner.group.axle);
    for (const { wheel } of corner.wheels) for (const part of this.closure(wheel)) moving.add(part);
    return moving;
  }

  private shares(part: Part, at: Instance, corner: Corner): boolean {
    const own = this.closure(part);
    const group = corner.group;
    if (group.axle !== null && own.has(group.axle)) {
      return (
        at.place === '' ||
        group.at.place === '' ||
        at.placeKey !== group.at.placeKey ||
        at.place === group.at.place
      );
    }
    for (const { wheel, at: wheelAt } of corner.wheels) {
      const theirs = this.closure(wheel);
      for (const member of own) if (theirs.has(member) && belongTogether(at, wheelAt)) return true;
    }
    return false;
  }

  private makeCorners(): Corner[] {
    const groups = new Map<string, Group>();
    const wheels = new Map<string, { wheel: Part; at: Instance }[]>();
    const sidesOf = new Map<string, Set<Side>>();
    const put = (group: Group, side: Side) => {
      const key = `${group.name}${group.at.place === '' ? '' : `@${group.at.place}`}`;
      if (!groups.has(key)) groups.set(key, group);
      if (!sidesOf.has(key)) sidesOf.set(key, new Set());
      sidesOf.get(key)!.add(side);
      return key;
    };
    for (const wheel of this.parts.filter((part) => part.attributes.wheel && part.origin !== 'implied')) {
      for (const at of wheel.instances) {
        const axle = this.axleAbove(wheel);
        const place = axle === null ? at : (matching(axle.instances, at)[0] ?? at);
        const group: Group = { name: axle?.name ?? firstOf(wheel).name, axle, at: { ...place, side: '' } };
        const key = put(group, at.side);
        if (at.side === '') for (const side of ['left', 'right'] as const) put(group, side);
        const list = wheels.get(key) ?? [];
        list.push({ wheel, at });
        wheels.set(key, list);
      }
    }
    if (groups.size === 0) {
      for (const axle of this.parts.filter((part) => part.attributes.axle && part.origin !== 'implied'))
        for (const at of axle.instances)
          for (const side of ['left', 'right'] as const)
            put({ name: axle.name, axle, at: { ...at, side: '' } }, side);
    }
    if (groups.size === 0) {
      const none: Instance = { side: '', place: '', placeKey: '', key: '', label: '' };
      for (const name of ['front', 'rear'])
        for (const side of ['left', 'right'] as const) put({ name, axle: null, at: none }, side);
    }
    this.addOtherEnd(groups, put);
    const corners: Corner[] = [];
    for (const [key, group] of groups) {
      for (const side of ['left', 'right'] as const) {
        if (!sidesOf.get(key)!.has(side)) continue;
        const here = (wheels.get(key) ?? []).filter(({ at }) => at.side === side || at.side === '');
        corners.push({ key: `${key}:${side}`, group, side, wheels: here });
      }
    }
    return corners;
  }

  /** A file that tells of one end only still means a vehicle with two: chocks and stands are put under the other. */
  private addOtherEnd(groups: ReadonlyMap<string, Group>, put: (group: Group, side: Side) => string): void {
    const says = (end: string) =>
      [...groups.values()].some(({ name, at }) => saysEnd(name, end) || saysEnd(at.place, end));
    const missing = says('front') === says('rear') ? null : says('front') ? 'rear' : 'front';
    if (missing === null) return;
    const at: Instance = { side: '', place: '', placeKey: '', key: '', label: '' };
    for (const side of ['left', 'right'] as const) put({ name: missing, axle: null, at }, side);
  }

  /** The first part of an axle kind found from a wheel through its joins, nearest first. */
  private axleAbove(wheel: Part): Part | null {
    for (const part of this.closure(wheel)) if (part.attributes.axle) return part;
    return null;
  }
}

/** Where a thing with sides stands in relation to another thing's instance. */
export function instancesNear(thing: Thing, at: Instance): readonly Instance[] {
  return matching(thing.instances, at);
}
