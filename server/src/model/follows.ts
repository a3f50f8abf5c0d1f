/** The guide that a guide goes on from: what it leaves, and what it has done. */

import { BOTH, narrowed } from './guards';
import { checkHandOver } from './handover';
import type { Model, StateEntry } from './model';
import { bindStates } from './neighbours';
import { outlineOf } from './outline';
import { type Report, shown } from './report';
import { bound, type Frame, type Runs, reportMissing, runsOf } from './runs';
import type { OperationScope } from './scope';
import { Cursor, type Library, type OpenDocument } from './source';
import { NAMED } from './verbs';

/** What a guide follows. */
export interface Followed {
  /** The guide that it names, then the one that that one follows, and so on; empty where there is none. */
  readonly documents: readonly OpenDocument[];
  /** That leads back to the guide itself. */
  readonly circular: boolean;
}

/** Guides that follow one another are followed this far; nobody works a job in more days. */
const MOST_FOLLOWED = 50;

/** What a guide follows, unless that leads back to the guide itself, which is reported. */
export function soundlyFollowed(root: Cursor, library: Library, report: Report): Followed {
  const documents: OpenDocument[] = [];
  for (let at = followedGuide(root, library); at !== null; at = followedGuide(Cursor.of(at), library)) {
    if (at.uri === root.document.uri) {
      const path = root.get('follows')!;
      const way = documents.length === 0 ? '' : `, by way of "${shown(path.text!)}"`;
      report.add('circular-reference', path.place, `This guide follows itself${way}.`);
      return { documents: [], circular: true };
    }
    if (documents.includes(at) || documents.length >= MOST_FOLLOWED) break;
    documents.push(at);
  }
  return { documents, circular: false };
}

function followedGuide(root: Cursor, library: Library): OpenDocument | null {
  const path = root.get('follows');
  if (path === null || path.text === null) return null;
  const document = library.document(library.resolve(root.document.uri, path.text));
  return document?.kind === 'install' ? document : null;
}

/** What the followed guide leaves and has done: bound here, and standing at `follows`. Its own mistakes stand in it. */
export function bindFollows(
  frame: Frame,
  { documents, circular }: Followed,
  given: readonly StateEntry[],
  scope: OperationScope,
  library: Library,
): Model['follows'] {
  const path = frame.outline.root.get('follows');
  if (path === null || path.text === null) return null;
  const [first] = documents;
  if (first === undefined) {
    if (!circular) reportMissing(scope.report, path, 'guide', library);
    return null;
  }
  const { place } = path;
  const quiet: OperationScope = {
    ...scope,
    targets: scope.targets.quietly(),
    report: scope.report.quietly(),
  };
  const days = [...documents].reverse().map((document) => runsOf(outlineOf(document), library, quiet.report));
  const left = bindStates(Cursor.of(first).get('leaves'), { ...frame, outline: outlineOf(first) }, quiet);
  const { entries: done, unknown } = doneBy(days, quiet);
  const otherwise = checkHandOver({ path, first, left, given, unknown, last: days.at(-1)! }, scope, library);
  const { set } = scope.reader.set(scope.world, scope.guards.frame(frame), null);
  const standing = (entry: StateEntry): StateEntry => ({
    ...entry,
    target: { ...entry.target, span: place.span },
    place,
    set,
  });
  // What is given otherwise counts as it is given: the steps were written for that.
  const entries = left.filter((entry) => !otherwise.has(entry));
  return { place, entries: entries.map(standing), done: done.map(standing) };
}

/** What verbs of a guide that was worked before leave things as, for what its `leaves` does not name. */
const DONE: Readonly<Record<string, string>> = {
  fit: 'fitted',
  'bolt-up': 'fitted',
  transfer: 'fitted',
  route: 'connected',
  connect: 'connected',
  discard: 'discarded',
};

/**
 * The things that guides fit, connect or scrap, one guide after the other, each as its last such operation has it.
 * `unknown` are names that the guide at hand does not know.
 */
function doneBy(
  days: readonly Runs[],
  scope: OperationScope,
): { readonly entries: StateEntry[]; readonly unknown: ReadonlySet<string> } {
  const last = new Map<string, StateEntry>();
  const unknown = new Set<string>();
  for (const { frame, step, operations } of days.flatMap(({ steps }) => steps))
    for (const operation of operations) {
      const state = DONE[operation.verb];
      if (state === undefined) continue;
      const { left: sides } = narrowed(BOTH, operation.side ?? step.side ?? step.section.side, 'operation');
      for (const item of operation.target.items()) {
        if (item.text === null) continue;
        const name = bound(frame.bindings, item.text);
        const { target } = scope.targets.named(item.text, item.place, frame, NAMED);
        if (target === null) unknown.add(name);
        if (target?.type !== 'part' && target?.type !== 'line') continue;
        const fits = target.type === 'line' ? state !== 'fitted' : state !== 'connected';
        const key = `${name} ${sides.join()}`;
        if (!fits) continue;
        // The last comes last, also where left and right are said apart.
        last.delete(key);
        last.set(key, { target, state, place: item.place, set: 1, sides });
      }
    }
  return { entries: [...last.values()], unknown };
}
