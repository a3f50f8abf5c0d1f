/** `with:` of a `use`: that it names what the section names, and what this guide has. */

import type { Names } from './names';
import { nearestName } from './nearest';
import { type Report, shown, suggestion, writeInstead } from './report';
import { bound, type Frame, type Runs, reportOf } from './runs';
import { Cursor, entriesAt, itemsAt, type Library, type OpenDocument, textAt } from './source';
import { textReferences } from './texts';
import { AIDED, NAMED } from './verbs';

/**
 * Reports bindings that bind nothing, names of this guide in them that are misspelt, and names of a section that only its
 * own vehicle or kits have. A misspelt name goes on as the one that is near.
 */
export function checkBindings(runs: Runs, names: Names, library: Library, report: Report): void {
  if (runs.frames.every(({ use }) => use === null)) return;
  const mentions = mentionsOf(runs);
  const known = new Map<OpenDocument, ReadonlySet<string>>();
  const declaredBy = ({ outline: { document } }: Frame): ReadonlySet<string> => {
    const declared = known.get(document) ?? declaredIn(document, library);
    known.set(document, declared);
    return declared;
  };
  for (const frame of runs.frames) {
    if (frame.use === null) continue;
    if (frame.use.frame.use === null) {
      for (const [theirs, ours] of entriesAt(frame.use.operation.cursor, 'with')) {
        reportUnused(frame, theirs, ours, mentions.get(frame) ?? new Set(), report);
        mendName(ours, names, runs.frames, report);
      }
    }
    if (names.complete)
      reportUnbound(frame, mentions.get(frame) ?? new Set(), names, declaredBy(frame), report);
  }
}

/** What the steps of each frame name in their own words; a section of the same guide within it speaks the same ones. */
function mentionsOf({ steps, frames }: Runs): Map<Frame, Set<string>> {
  const mentions = new Map<Frame, Set<string>>(frames.map((frame) => [frame, new Set()]));
  for (const { frame, step, operations } of steps) {
    const here = mentions.get(frame)!;
    for (const { name } of textReferences(textAt(step.cursor, 'text') ?? '')) here.add(name);
    for (const { cursor, verb, target } of operations) {
      const beside = ['onto', 'to', ...(AIDED.has(verb) ? [] : ['with'])];
      for (const item of [...target.items(), ...beside.flatMap((key) => itemsAt(cursor, key))])
        if (item.text !== null) here.add(item.text);
    }
  }
  // From the innermost frames outwards.
  for (const frame of [...frames].reverse()) {
    const { use } = frame;
    if (use === null) continue;
    const around = mentions.get(use.frame)!;
    const given = entriesAt(use.operation.cursor, 'with');
    for (const [, ours] of given) if (ours.text !== null) around.add(ours.text);
    if (frame.outline !== use.frame.outline) continue;
    const keys = given.map(([theirs]) => theirs);
    for (const name of mentions.get(frame)!) if (!keys.some((key) => isUnder(name, key))) around.add(name);
  }
  return mentions;
}

const isUnder = (name: string, key: string): boolean => name === key || name.startsWith(`${key}.`);
/** A name without what stands behind its dot. */
export const firstOf = (name: string): string => name.split('.')[0]!;

function reportUnused(
  { use }: Frame,
  theirs: string,
  ours: Cursor,
  mentions: ReadonlySet<string>,
  report: Report,
): void {
  if ([...mentions].some((name) => isUnder(name, theirs))) return;
  const { title } = use!.section;
  const near = nearestName(theirs, [...mentions, ...[...mentions].map(firstOf)]);
  const { hint, fixes } = suggestion(ours.keyPlace, near);
  report.add(
    'unused-binding',
    ours.keyPlace,
    `"${shown(title)}" names no "${shown(theirs)}", so this binds nothing${hint}`,
    { fixes, item: theirs, severity: 'warning' },
  );
}

function mendName(ours: Cursor, names: Names, frames: readonly Frame[], report: Report): void {
  if (ours.text === null) return;
  const name = firstOf(ours.text);
  if (names.find(name, NAMED) !== null) return;
  const near = names.nearest(name, NAMED);
  if (near === null) return;
  const rest = ours.text.slice(name.length);
  const where = names.complete ? 'Neither vehicle nor kit has' : 'There is no';
  report.add('unknown-name', ours.place, `${where} "${shown(name)}"; did you mean "${near}"?`, {
    fixes: [writeInstead(ours.place, near + rest)],
    item: name,
  });
  for (const { bindings } of frames)
    for (const [theirs, value] of bindings)
      if (firstOf(value) === name) bindings.set(theirs, near + value.slice(name.length));
}

/** What a section acts on that its own guide's files declare and this guide's do not. */
function reportUnbound(
  frame: Frame,
  mentions: ReadonlySet<string>,
  names: Names,
  declared: ReadonlySet<string>,
  report: Report,
): void {
  if (declared.size === 0) return;
  const told = new Set<string>();
  for (const mention of mentions) {
    const name = firstOf(mention);
    if (told.has(name) || !declared.has(name) || bound(frame.bindings, mention) !== mention) continue;
    told.add(name);
    const found = names.find(name, NAMED);
    const isHere = found !== null && !(found.type === 'thing' && found.thing.origin === 'implied');
    if (isHere || names.nearest(name, NAMED) !== null) continue;
    const message = `"${shown(name)}" is known to the section's own vehicle or kit alone: say under with: what it is here.`;
    reportOf(frame, report).add('unbound-name', frame.use!.operation.target.place, message, {
      item: name,
      severity: 'warning',
    });
  }
}

/** Names of the parts and lines that the files of a guide declare. */
export function declaredIn(guide: OpenDocument, library: Library): Set<string> {
  const root = Cursor.of(guide);
  const names = new Set<string>();
  for (const path of [...itemsAt(root, 'vehicle'), ...itemsAt(root, 'kit')]) {
    if (path.text === null) continue;
    const file = library.document(library.resolve(guide.uri, path.text));
    if (file === null) continue;
    for (const key of ['parts', 'lines'])
      for (const [name] of entriesAt(Cursor.of(file), key)) names.add(name);
  }
  return names;
}
