/** Operations with everything they say bound. */

import type { Span } from '../findings/finding';
import type { Quantity } from '../units/quantity';
import type { Diagram } from '../variants/diagram';
import { type Guards, namedBeside, narrowed, type Sides } from './guards';
import type { Aid, BoundOperation, ByVariant, Joint, Target } from './model';
import { isOnlyNear, nearestName } from './nearest';
import type { OperationOutline } from './outline';
import { reportEmptied, sideText, withStations, wordsIn } from './qualifiers';
import { listed, type Report, shown, suggestion } from './report';
import { bound, type Frame, reportOf } from './runs';
import type { OperationScope } from './scope';
import { type Cursor, itemsAt, textAt, textsAt } from './source';
import { ANY_DIMENSION } from './variables';
import { AIDED, JOINT_VERBS, PLACED, VERBS } from './verbs';

export interface BoundOrNot {
  /** Null where it cannot be done at all. */
  readonly operation: BoundOperation | null;
  /** Everything in it is bound to what is declared. */
  readonly sound: boolean;
  /** It cannot be done, and that is told. */
  readonly lost: boolean;
}

/** Keys of an operation that are neither its verb nor a qualifier that rules may ask for. */
const NO_QUALIFIERS: ReadonlySet<string> = new Set(['side', 'when', 'waive']);

/** @param outside the sides that step and guide leave; `stations` what step and section say of places. */
export function bindOperation(
  frame: Frame,
  step: { readonly guard: Diagram; readonly found: ReturnType<Guards['foundAround']> } | null,
  outline: OperationOutline,
  outside: Sides,
  stations: ReadonlyMap<string, readonly string[]>,
  scope: OperationScope,
): BoundOrNot {
  const { cursor, verb } = outline;
  const binder = new OperationBinder(frame, outline, scope);
  const sides = narrowed(outside, outline.side, 'operation');
  if (sides.emptied !== null) {
    const wrong = outside.emptied !== null || reportEmptied(sides, frame, scope.report);
    return { operation: null, sound: !wrong, lost: wrong };
  }
  const guard = binder.guard(step?.guard ?? null);
  const targets = binder.targets();
  const onto = binder.onto();
  const beside =
    verb === 'apply' || verb === 'transfer' ? namedBeside(outline).flatMap((item) => binder.named(item)) : [];
  const aids = binder.aidsIn('with');
  const operation: BoundOperation = {
    path: `${frame.prefix}${outline.path}`,
    verb,
    targets,
    place: binder.place(),
    guard,
    sides: sides.left,
    sideSaid: sides.said,
    stations: withStations(stations, cursor, scope, frame),
    aids: aids.aids,
    onto,
    figure: binder.figure(),
    by: scope.quantities.read(textAt(cursor, 'by'), ANY_DIMENSION),
    to: verb === 'torque' ? null : scope.quantities.read(cursor.get('to')?.text ?? null, ANY_DIMENSION),
    words: binder.words(targets),
    newPieces: binder.pieces('new', targets),
    stays: binder.pieces('stays', targets),
    article: sideText(textAt(cursor, 'article')),
    ifNeeded: cursor.get('if-needed')?.value === true,
    toTargets: beside,
    withTargets: aids.things,
    foundNames: [
      ...(step?.found ?? []).map((found) => ({ ...found, onStep: true })),
      ...scope.guards.foundIn(outline.when).map((found) => ({ ...found, onStep: false })),
    ],
    qualifiers: new Map(
      cursor
        .entries()
        .flatMap(([key, value]) =>
          key === verb || NO_QUALIFIERS.has(key) ? [] : [[key, value.value] as const],
        ),
    ),
    spans: new Map<string, Span>(cursor.entries().map(([key, value]) => [key, value.span])),
  };
  if (targets.length === 0) return { operation: null, sound: false, lost: binder.told };
  return { operation, sound: binder.sound, lost: false };
}

class OperationBinder {
  sound = true;
  /** Some name of it was reported. */
  told = false;
  private readonly report: Report;

  constructor(
    private readonly frame: Frame,
    private readonly outline: OperationOutline,
    private readonly scope: OperationScope,
  ) {
    this.report = reportOf(frame, scope.report);
  }

  /** @param outside the variants in which the step runs; null for what stands in no step. */
  guard(outside: Diagram | null): Diagram {
    const { guards, reader, world } = this.scope;
    const around = outside ?? reader.set(world, guards.frame(this.frame), null).set;
    if (this.outline.when === null) return around;
    const own = guards.condition(this.frame, this.outline.when);
    const { set, understood } = reader.set(world, own, this.report);
    if (!understood) this.sound = false;
    return world.diagrams.and(around, set);
  }

  place() {
    const { target } = this.outline;
    const start = target.keyPlace;
    return {
      uri: start.uri,
      span: { start: start.span.start, end: Math.max(start.span.end, target.span.end) },
    };
  }

  targets(): Target[] {
    const { verb, target } = this.outline;
    const info = VERBS.get(verb)!;
    const made: Target[] = [];
    for (const item of target.items()) {
      if (item.text === null) continue;
      const resolved = this.scope.targets.ofVerb(item, this.frame, verb, info);
      this.note(resolved);
      if (resolved.target !== null) made.push(...this.withEnds(resolved.target));
    }
    return made;
  }

  /** `end:` on a line's operation: one target for each end it names. */
  private withEnds(target: Target): Target[] {
    const ends = itemsAt(this.outline.cursor, 'end');
    if (target.type !== 'line' || ends.length === 0 || target.end !== null) {
      if (target.type === 'part' && (this.outline.verb === 'free' || this.outline.verb === 'seat')) {
        const { span, written } = target;
        return [...target.part.ends.values()].map((end) => ({ span, written, type: 'end', end }));
      }
      return [target];
    }
    return ends.flatMap((item): Target[] => {
      const known = [...new Set(target.lines.flatMap((line) => line.ends))].filter((end) => end !== '');
      if (item.text !== null && known.includes(item.text)) return [{ ...target, end: item.text }];
      if (known.length === 0 || item.text === null) return [target];
      this.sound = false;
      this.told = true;
      const { hint, fixes } = suggestion(item.place, nearestName(item.text, known));
      this.report.add(
        'unknown-joint',
        item.place,
        `"${target.written}" has no end "${shown(item.text)}"${hint}`,
        { fixes },
      );
      return [];
    });
  }

  named(item: Cursor): Target[] {
    const resolved = this.scope.targets.ofVerb(item, this.frame, this.outline.verb, PLACED);
    this.note(resolved);
    return resolved.target === null ? [] : [resolved.target];
  }

  onto(): BoundOperation['onto'] {
    const items = itemsAt(this.outline.cursor, 'onto');
    if (this.outline.verb === 'lower')
      return { aids: items.flatMap((item) => this.aid(item) ?? []), target: null };
    const [first] = items;
    return { aids: [], target: first === undefined ? null : (this.named(first)[0] ?? null) };
  }

  /** Aids that a qualifier names; where the verb asks for no aid of the packs, things may stand there too. */
  aidsIn(key: string): { readonly aids: readonly Aid[]; readonly things: readonly Target[] } {
    const aids: Aid[] = [];
    const things: Target[] = [];
    for (const item of itemsAt(this.outline.cursor, key)) {
      if (item.text === null) continue;
      const found = this.scope.aids.find(item.text);
      if (found !== null) aids.push(found);
      else if (AIDED.has(this.outline.verb)) aids.push(this.aid(item)!);
      else {
        const thing = this.thingNamed(item);
        if (thing !== null) things.push(thing);
        else aids.push(this.scope.aids.unnamed(item.text));
      }
    }
    return { aids, things };
  }

  private thingNamed(item: Cursor): Target | null {
    const [name = '', sub] = bound(this.frame.bindings, item.text!).split('.');
    const found = this.scope.targets.names.find(name, PLACED, sub !== undefined);
    return found?.type === 'thing' ? (this.named(item)[0] ?? null) : null;
  }

  private aid(item: Cursor): Aid | null {
    const { aids } = this.scope;
    if (item.text === null) return null;
    const found = aids.find(item.text);
    if (found !== null) return found;
    // Without any pack nothing is known of aids, and nobody can be wrong.
    if (aids.aids.size > 0) {
      const near = aids.nearest(item.text);
      const { hint, fixes } = suggestion(item.place, near, near !== null && aids.isOnly(item.text, near));
      const end =
        near === null
          ? '; the words there are stand in schemas/words.md, or declare it under aids: in a rules file.'
          : hint;
      this.report.add('unknown-aid', item.place, `No rule pack knows the aid "${shown(item.text)}"${end}`, {
        fixes,
      });
      this.sound = false;
      if (near !== null) return aids.find(near);
    }
    return aids.unnamed(item.text);
  }

  /** Words, with the path that was meant where a line does not have the one that is written. */
  words(targets: readonly Target[]): Map<string, string> {
    const { cursor, verb } = this.outline;
    const words = wordsIn(cursor, verb);
    const written = verb === 'route' ? (cursor.get('path') ?? cursor.get('to')) : null;
    if (written === null || written.text === null) return words;
    const lines = targets.flatMap((target) => (target.type === 'line' ? target.lines : []));
    const line = lines.find(({ paths }) => paths.size > 0 && !paths.has(written.text!));
    if (line === undefined) return words;
    const paths = [...line.paths.keys()];
    const near = nearestName(written.text, paths);
    const safe = near !== null && isOnlyNear(written.text, near, paths);
    const { hint, fixes } = suggestion(written.place, near, safe);
    const message = `"${line.name}" has no path "${shown(written.text)}": it has ${listed(paths)}${hint}`;
    this.report.add('unknown-path', written.place, message, { fixes, item: line.name });
    this.sound = false;
    if (near !== null) words.set('path', near);
    return words;
  }

  /** The figure of a `torque`, by variant; the first whose condition holds counts. */
  figure(): ByVariant<Quantity | 'maker'> {
    if (!JOINT_VERBS.has(this.outline.verb)) return [];
    // Of several stages the last is the figure.
    const last = this.scope.quantities.read(textsAt(this.outline.cursor, 'stages').at(-1) ?? null, 'torque');
    if (last !== null) return [{ set: 1, value: last }];
    const to = this.outline.cursor.get('to');
    if (to === null) return [];
    const { world, reader, guards } = this.scope;
    return to.items().flatMap((item) => {
      const text = item.isMap ? textAt(item, 'is') : item.text;
      const value = text === 'maker' ? ('maker' as const) : this.scope.quantities.read(text, 'torque');
      if (value === null) return [];
      const condition = guards.condition(this.frame, item.get('when'));
      const { set, understood } = reader.set(world, condition, this.report);
      if (!understood) this.sound = false;
      return [{ set, value }];
    });
  }

  /** Piece names as the joints of the operation know them. */
  pieces(key: string, targets: readonly Target[]): string[] {
    if (textsAt(this.outline.cursor, key).length === 0) return [];
    const joints = targets.flatMap((target) =>
      target.type === 'joint'
        ? [target.joint]
        : target.type === 'part'
          ? [...target.part.joints.values()]
          : [],
    );
    const { pieces } = this.scope.targets;
    const names = itemsAt(this.outline.cursor, key).flatMap((item) => {
      const name = item.text === null ? null : this.piece(item, item.text, joints);
      return name === null ? [] : [name, ...joints.map((joint) => pieces.nameOn(joint, name))];
    });
    return [...new Set(names)];
  }

  /** The piece that is meant: where no joint and no pack has what is written, the near one that they have. */
  private piece(item: Cursor, written: string, joints: readonly Joint[]): string {
    const { pieces } = this.scope.targets;
    const own = joints.flatMap((joint) => [...joint.stack, ...joint.singleUse.keys()]);
    if (own.includes(written) || pieces.known(written) !== null) return written;
    if (joints.some((joint) => pieces.nameOn(joint, written) !== written)) return written;
    const near = nearestName(written, [...own, ...pieces.names]);
    if (near === null) return written;
    const { hint, fixes } = suggestion(item.place, near);
    const message = `No joint here has a piece "${shown(written)}"${hint}`;
    this.report.add('unknown-piece', item.place, message, { fixes, severity: 'warning' });
    this.sound = false;
    return near;
  }

  private note(resolved: {
    readonly wrong: boolean;
    readonly implied: boolean;
    readonly target: Target | null;
  }): void {
    if (resolved.wrong) this.told = true;
    if (resolved.wrong || resolved.target === null) this.sound = false;
    if (resolved.implied && !this.scope.withoutVehicle) this.sound = false;
  }
}
