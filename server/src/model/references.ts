/** References of a vehicle's or kit's things to others: that what they name is there, and is of the right sort. */

import type { Assembled } from './assemble';
import { fieldsOf } from './body';
import { FIXED } from './builtins';
import { COVERINGS } from './joints';
import { NameGuesser, nearestName } from './nearest';
import { listed, type Report, shown, suggestion } from './report';
import { Cursor, entriesAt, itemsAt, type OpenDocument } from './source';

type Sort = 'part' | 'line';

/** What each key of a part or line refers to. */
const REFERS: Readonly<Record<Sort, Readonly<Record<string, Sort>>>> = {
  part: { like: 'part', joins: 'part', inside: 'part', under: 'part', behind: 'part', replaces: 'part' },
  line: { like: 'line', spans: 'part', 'held-by': 'part', replaces: 'line' },
};
const MAY_BE_FIXED: ReadonlySet<string> = new Set(['joins', 'spans']);

/**
 * @param spaces for each vehicle that a kit is for, everything that has a name there; a name is unknown where no space has it.
 * @param judged false for a kit whose vehicles are not known: what it names may be the vehicle's.
 */
export function checkReferences(
  document: OpenDocument,
  spaces: readonly ReadonlyMap<string, Assembled>[],
  judged: boolean,
  report: Report,
): void {
  const checker = new Checker(spaces, judged, report);
  const root = Cursor.of(document);
  for (const sort of ['part', 'line'] as const) {
    for (const [, cursor] of entriesAt(root, `${sort}s`)) {
      for (const [key, wanted] of Object.entries(REFERS[sort])) checker.list(cursor, key, wanted);
      if (sort === 'line') continue;
      for (const item of itemsAt(cursor, 'limited-by'))
        for (const link of item.items()) checker.limiter(link);
      for (const [, joint] of entriesAt(cursor, 'joints'))
        for (const key of COVERINGS) checker.list(joint, key, 'part');
    }
  }
  for (const [, cursor] of entriesAt(root, 'hardware'))
    for (const item of itemsAt(cursor, 'for')) checker.served(item);
}

class Checker {
  private readonly guessers: Readonly<Record<Sort, NameGuesser>>;

  constructor(
    private readonly spaces: readonly ReadonlyMap<string, Assembled>[],
    private readonly judged: boolean,
    private readonly report: Report,
  ) {
    const named = (sort: Sort) =>
      spaces.flatMap((space) =>
        [...space.values()].flatMap((thing) => (thing.type === sort ? [thing.name] : [])),
      );
    this.guessers = { part: new NameGuesser(named('part')), line: new NameGuesser(named('line')) };
  }

  list(cursor: Cursor, key: string, wanted: Sort): void {
    for (const item of itemsAt(cursor, key)) {
      if (item.text !== null && !(MAY_BE_FIXED.has(key) && FIXED.has(item.text)))
        this.thing(item, item.text, wanted, '', MAY_BE_FIXED.has(key));
    }
  }

  /** A part, or a joint of one. */
  limiter(item: Cursor): void {
    if (item.text === null) return;
    const [name = '', joint] = item.text.split('.');
    const things = this.thing(item, name, 'part', item.text.slice(name.length));
    if (joint !== undefined && things.length > 0) this.joint(item, name, joint, things, true);
  }

  /** What kit hardware is for: a part's joints, one joint, or a piece of one. */
  served(item: Cursor): void {
    if (item.text === null) return;
    const [name = '', joint] = item.text.split('.');
    const things = this.thing(item, name, 'part', item.text.slice(name.length));
    if (joint !== undefined && things.length > 0) this.joint(item, name, joint, things, false);
  }

  /** The things that have the name, one for each space; reports where none has, or none of the wanted sort. */
  private thing(item: Cursor, name: string, wanted: Sort, rest = '', mayBeFixed = false): Assembled[] {
    const found = this.spaces.flatMap((space) => space.get(name) ?? []);
    const right = found.filter((thing) => thing.type === wanted);
    if (right.length > 0) return right;
    if (found.length > 0) {
      this.report.add(
        'unknown-name',
        item.place,
        `"${shown(name)}" is a ${found[0]!.type}; here a ${wanted} is wanted.`,
      );
      return [];
    }
    if (!this.judged) return [];
    const near = this.guessers[wanted].nearest(name) ?? (mayBeFixed ? nearestName(name, FIXED) : null);
    const { fixes } = suggestion(item.place, near === null ? null : near + rest);
    const hint = near === null ? '.' : `; did you mean "${near}"?`;
    this.report.add('unknown-name', item.place, `There is no ${wanted} "${shown(name)}"${hint}`, { fixes });
    return [];
  }

  private joint(
    item: Cursor,
    name: string,
    joint: string,
    things: readonly Assembled[],
    needed: boolean,
  ): void {
    const known = new Set(things.flatMap((thing) => [...fieldsOf(thing.body, 'joints').keys()]));
    if (known.has(joint) || (known.size === 0 && !needed)) return;
    // Hardware may be for ends and holes too, which have no pieces but need no finding.
    if (
      things.some(
        (thing) => fieldsOf(thing.body, 'ends').has(joint) || fieldsOf(thing.body, 'holes').has(joint),
      )
    )
      return;
    const near = nearestName(joint, known);
    const rest = item.text!.split('.').slice(2);
    const { fixes } = suggestion(item.place, near === null ? null : [name, near, ...rest].join('.'));
    const has = known.size === 0 ? 'it has no joints' : `it has ${listed([...known])}`;
    const hint = near === null ? '.' : `; did you mean "${near}"?`;
    this.report.add(
      'unknown-joint',
      item.place,
      `"${shown(name)}" has no joint "${shown(joint)}": ${has}${hint}`,
      { fixes },
    );
  }
}
