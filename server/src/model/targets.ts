/** Written targets to things of the model, and what is wrong with them in words. */

import type { Place } from '../findings/finding';
import { SPATIAL, STRUCTURE } from './builtins';
import type { Line, Target } from './model';
import type { Found, Names } from './names';
import { isOnlyNear, nearestName } from './nearest';
import type { BuildingPart, BuildingThing } from './parts';
import type { PieceTable } from './pieces';
import { listed, type Report, shown, writeInstead } from './report';
import { bound, type Frame, reportOf } from './runs';
import type { Cursor } from './source';
import { type Acts, JOINT_VERBS, type VerbInfo } from './verbs';

/** A target, and whether it rests on what files declare. `target` is null where nothing can be done. */
export interface Resolved {
  readonly target: Target | null;
  /** Something was reported. */
  readonly wrong: boolean;
  /** It is known from its use alone. */
  readonly implied: boolean;
}

interface Ask {
  /** As it is written, names of a used guide not yet bound. */
  readonly text: string;
  /** Where it is written: the value, or the key where a map names it. */
  readonly place: Place;
  readonly frame: Frame;
  readonly verb: string;
  readonly info: VerbInfo;
  /** It may be any words: nothing is reported that is not plainly a slip of a name. */
  readonly free: boolean;
}

export class Targets {
  constructor(
    readonly names: Names,
    readonly pieces: PieceTable,
    private readonly report: Report,
  ) {}

  /** The same, but what is wrong is told to nobody. */
  quietly(): Targets {
    return new Targets(this.names, this.pieces, this.report.quietly());
  }

  /** Resolves what stands under a verb. */
  ofVerb(cursor: Cursor, frame: Frame, verb: string, info: VerbInfo): Resolved {
    const free = info.acts.has('words') && info.acts.has('spatial');
    return this.resolve({ text: cursor.text ?? '', place: cursor.place, frame, verb, info, free });
  }

  /** Resolves a name that stands as a key or elsewhere than under a verb. */
  named(text: string, place: Place, frame: Frame, info: VerbInfo): Resolved {
    return this.resolve({ text, place, frame, verb: '', info, free: false });
  }

  private resolve(ask: Ask): Resolved {
    const written = bound(ask.frame.bindings, ask.text);
    const segments = written.split('.');
    const name = segments[0]!;
    let found = this.names.find(name, ask.info, segments.length > 1);
    if (found === null) {
      if (!ask.free && ask.info.acts.has('words') && !ask.info.acts.has('part'))
        return this.good(this.words(ask, written), false);
      const near = ask.free ? this.names.slip(written) : this.names.nearest(name, ask.info);
      if (near === null && ask.free) return this.good(this.words(ask, written), false);
      if (near === null) return this.wrong(ask, written, null, null);
      this.unknown(ask, name, near);
      // Goes on as if the near name were written, so that one slip is one finding.
      found = this.names.find(near, ask.info);
      if (found === null) return NOTHING;
      return { ...this.within(ask, written, found, [near, ...segments.slice(1)]), wrong: true };
    }
    return this.within(ask, written, found, segments);
  }

  private within(ask: Ask, written: string, found: Found, segments: readonly string[]): Resolved {
    switch (found.type) {
      case 'built-in':
        if (segments.length > 1 && ask.free) return this.good({ ...this.words(ask, written) }, false);
        return this.accepted(
          ask,
          { ...this.base(ask, written), type: 'built-in', name: found.name },
          builtInActs(found.name),
          false,
        );
      case 'circuit':
        return this.accepted(
          ask,
          { ...this.base(ask, written), type: 'line', lines: found.lines, end: null },
          'line',
          false,
        );
      case 'loose':
        return this.accepted(ask, this.words(ask, written), 'words', false);
      case 'thing':
        return found.thing.type === 'part'
          ? this.inPart(ask, written, found.thing, segments)
          : this.inLine(ask, written, found.thing, segments);
    }
  }

  private inPart(ask: Ask, written: string, part: BuildingPart, segments: readonly string[]): Resolved {
    const implied = part.origin === 'implied' && !STRUCTURE.has(part.name);
    const base = this.base(ask, written);
    const [, sub, ...rest] = segments;
    if (sub === undefined) {
      if (JOINT_VERBS.has(ask.verb) && part.joints.size === 0)
        return this.wrong(ask, written, part, 'has no joints');
      if ((ask.verb === 'free' || ask.verb === 'seat') && part.ends.size === 0)
        return this.wrong(ask, written, part, 'has no end that holds by itself');
      return this.accepted(ask, { ...base, type: 'part', part }, 'part', implied, part);
    }
    const joint = part.joints.get(sub);
    if (joint !== undefined) {
      if (rest.length === 0)
        return this.accepted(
          ask,
          { ...base, type: 'joint', joint },
          'joint',
          implied || joint.declared === null,
          part,
        );
      const piece = this.pieces.nameOn(joint, rest.join('.'));
      return this.accepted(ask, { ...base, type: 'piece', joint, piece }, 'piece', implied, part);
    }
    const end = part.ends.get(sub);
    if (end !== undefined) return this.accepted(ask, { ...base, type: 'end', end }, 'end', implied, part);
    const hole = part.holes.get(sub);
    if (hole !== undefined) return this.accepted(ask, { ...base, type: 'hole', hole }, 'hole', implied, part);
    const face = part.faces.get(sub);
    if (face !== undefined) return this.accepted(ask, { ...base, type: 'face', face }, 'face', implied, part);
    return this.unknownSub(ask, written, part, sub, segments);
  }

  private inLine(ask: Ask, written: string, line: Line, segments: readonly string[]): Resolved {
    const implied = line.origin === 'implied';
    const [, ...rest] = segments;
    const end = rest.length === 0 ? null : rest.join('.');
    if (end !== null && !line.ends.includes(end))
      return this.unknownSub(ask, written, line as BuildingThing, end, segments);
    return this.accepted(
      ask,
      { ...this.base(ask, written), type: 'line', lines: [line], end },
      'line',
      implied,
      line as BuildingThing,
    );
  }

  /** A joint, end, hole, face or line end that its part does not have. */
  private unknownSub(
    ask: Ask,
    written: string,
    thing: BuildingThing,
    sub: string,
    segments: readonly string[],
  ): Resolved {
    const known = subNames(thing);
    const near = nearestName(sub, known);
    if (thing.origin === 'implied' && near === null && ask.free)
      return this.good(this.words(ask, written), false);
    if (known.length === 0 && thing.origin === 'implied') return NOTHING;
    const has = known.length === 0 ? 'has nothing so named' : `has ${listed(known)}`;
    const hint = near === null ? '' : `; did you mean "${near}"?`;
    const full = near === null ? null : [segments[0], near, ...segments.slice(2)].join('.');
    this.add(
      ask,
      'unknown-joint',
      `"${thing.name}" has no "${shown(sub)}": it ${has}${hint === '' ? '.' : hint}`,
      full,
      `${thing.name}.${sub}`,
      near !== null && thing.origin !== 'implied' && isOnlyNear(sub, near, known),
    );
    if (near === null || full === null) return { target: null, wrong: true, implied: false };
    const again =
      thing.type === 'part'
        ? this.inPart(ask, written, thing, full.split('.'))
        : this.inLine(ask, written, thing, full.split('.'));
    return { ...again, wrong: true };
  }

  private accepted(ask: Ask, target: Target, acts: Acts, implied: boolean, thing?: BuildingThing): Resolved {
    if (ask.info.acts.has(acts)) return this.good(target, implied);
    // A name known from its use alone may have been used in two ways; the first counts, and nobody is blamed.
    if (thing?.origin === 'implied') return { target: null, wrong: false, implied: true };
    return this.wrong(ask, target.written, thing ?? null, null);
  }

  private wrong(ask: Ask, written: string, thing: BuildingThing | null, why: string | null): Resolved {
    if (thing?.origin === 'implied') return { target: null, wrong: false, implied: true };
    const verb = ask.verb === '' ? 'This' : `"${ask.verb}"`;
    const what = why === null ? '' : `, and "${shown(thing?.name ?? written)}" ${why}`;
    const not = why === null ? `, not on "${shown(written)}"` : '';
    this.add(ask, 'wrong-target', `${verb} acts on ${ask.info.on}${not}${what}.`, null, written);
    return { target: null, wrong: true, implied: false };
  }

  private unknown(ask: Ask, name: string, near: string): void {
    const full = [near, ...ask.text.split('.').slice(1)].join('.');
    const sided = this.names.withoutSide(name);
    if (sided !== null) {
      const message = `"${near}" is there on both sides: write ${full} with side: ${sided.side}, not "${shown(name)}".`;
      this.add(ask, 'unknown-name', message, null, name);
      return;
    }
    const where = this.names.complete ? 'Neither vehicle nor kit has' : 'There is no';
    const safe = this.names.isOnly(name, near);
    this.add(ask, 'unknown-name', `${where} "${shown(name)}"; did you mean "${near}"?`, full, name, safe);
  }

  private add(
    ask: Ask,
    rule: string,
    message: string,
    instead: string | null,
    item: string,
    safe = false,
  ): void {
    const fixes = instead === null ? [] : [writeInstead(ask.place, instead, safe)];
    reportOf(ask.frame, this.report).add(rule, ask.place, message, { fixes, item });
  }

  private words(ask: Ask, text: string): Target {
    return { ...this.base(ask, text), type: 'words', text };
  }

  private base(ask: Ask, written: string) {
    return { span: ask.place.span, written };
  }

  private good(target: Target, implied: boolean): Resolved {
    return { target, wrong: false, implied };
  }
}

const NOTHING: Resolved = { target: null, wrong: false, implied: true };

function builtInActs(name: string): Acts {
  return SPATIAL.has(name) ? 'spatial' : 'system';
}

function subNames(thing: BuildingThing): string[] {
  if (thing.type === 'line') return thing.ends.filter((end) => end !== '');
  return [...thing.joints.keys(), ...thing.ends.keys(), ...thing.holes.keys(), ...thing.faces.keys()];
}
