/** What a guide says of before and after: `given`, `leaves`, `follows`, `owes`. */

import { BOTH, narrowed } from './guards';
import type { BoundOperation, Duty, Model, StateEntry, Target } from './model';
import { nearestName } from './nearest';
import { bindOperation } from './operations';
import { operationOutlines, outlineOf } from './outline';
import { type Report, shown, suggestion } from './report';
import { type Frame, type Runs, reportMissing, runsOf } from './runs';
import type { OperationScope } from './scope';
import { Cursor, itemsAt, type Library, type OpenDocument } from './source';
import { NAMED, VERBS } from './verbs';

const JOINT_STATES = ['tight', 'loose', 'out', 'started', 'snug', 'final'];
const PART_STATES = [
  'off',
  'fitted',
  'swung',
  'discarded',
  'supported',
  'compressed',
  'empty',
  'drained',
  'full',
  'raised',
  'ground',
  'held',
  'boxed',
  'offered',
];
const LINE_STATES = [
  'disconnected',
  'connected',
  'unclipped',
  'clipped',
  'discarded',
  'drained',
  'full',
  'held',
];
const END_STATES = ['freed', 'seated'];

/** The entries of `given` or `leaves` as a map; none where it is a list of operations. */
export function bindStates(map: Cursor | null, frame: Frame, scope: OperationScope): StateEntry[] {
  if (map === null || !map.isMap) return [];
  const set = scope.reader.set(scope.world, scope.guards.frame(frame), null).set;
  const { left: sides } = narrowed(BOTH, scope.main.outline.side, 'guide');
  return map.entries().flatMap(([name, cursor]): StateEntry[] => {
    const state = cursor.text;
    const { target } = scope.targets.named(name, cursor.keyPlace, frame, NAMED);
    if (state === null || target === null) return [];
    const known = statesOf(target);
    if (known !== null && !known.includes(state)) {
      const near = nearestName(state, known);
      const { hint, fixes } = suggestion(cursor.place, near);
      scope.report.add(
        'unknown-state',
        cursor.place,
        `"${shown(state)}" is no state of "${shown(name)}"${hint}`,
        { fixes },
      );
      return [];
    }
    const { uri, span } = cursor.keyPlace;
    return [
      {
        target,
        state,
        place: { uri, span: { start: span.start, end: Math.max(span.end, cursor.span.end) } },
        set,
        sides,
      },
    ];
  });
}

/** States that a target may have by `given`; null where a guide may name any. */
function statesOf(target: Target): readonly string[] | null {
  switch (target.type) {
    case 'joint':
      return JOINT_STATES;
    case 'part':
      // A part's state may be said by that of its joints, where they are meant.
      return [...PART_STATES, ...JOINT_STATES];
    case 'end':
      return END_STATES;
    case 'line':
      return [...LINE_STATES, ...target.lines.flatMap((line) => [...line.paths.keys()])];
    default:
      return null;
  }
}

/** The operations of `given`, where it is a list. */
export function bindGivenOperations(
  list: Cursor | null,
  frame: Frame,
  scope: OperationScope,
): BoundOperation[] {
  if (list === null || !list.isList) return [];
  const sides = narrowed(BOTH, frame.outline.side, 'guide');
  return operationOutlines(list, '0').flatMap((outline) => {
    if (outline.verb === 'use') return [];
    return bindOperation(frame, null, outline, sides, new Map(), scope).operation ?? [];
  });
}

/** The guide that a guide follows, null where there is none or its file is missing. */
function followedGuide(root: Cursor, library: Library): OpenDocument | null {
  const path = root.get('follows');
  if (path === null || path.text === null) return null;
  const document = library.document(library.resolve(root.document.uri, path.text));
  return document?.kind === 'install' ? document : null;
}

/** What the followed guide leaves: bound here, and standing at `follows`. Its own mistakes stand in it. */
export function bindFollows(
  frame: Frame,
  { document: followed, circular }: ReturnType<typeof soundlyFollowed>,
  scope: OperationScope,
  library: Library,
): Model['follows'] {
  const path = frame.outline.root.get('follows');
  if (path === null || path.text === null) return null;
  if (followed === null) {
    if (!circular) reportMissing(scope.report, path, 'guide', path.text);
    return null;
  }
  const { place } = path;
  const other: Frame = { ...frame, outline: outlineOf(followed) };
  const quiet: OperationScope = {
    ...scope,
    targets: scope.targets.quietly(),
    report: scope.report.quietly(),
  };
  const entries = bindStates(Cursor.of(followed).get('leaves'), other, quiet);
  const set = scope.reader.set(scope.world, scope.guards.frame(frame), null).set;
  const standing = (entry: StateEntry): StateEntry => ({
    ...entry,
    target: { ...entry.target, span: place.span },
    place,
    set,
  });
  return {
    place,
    entries: entries.map(standing),
    done: doneBy(runsOf(other.outline, library, quiet.report), quiet).map(standing),
  };
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

/** The things that a guide fits, connects or scraps, each as its last such operation has it. */
function doneBy(runs: Runs, scope: OperationScope): StateEntry[] {
  const last = new Map<string, StateEntry>();
  for (const { frame, step, operations } of runs.steps)
    for (const operation of operations) {
      const state = DONE[operation.verb];
      if (state === undefined) continue;
      const { left: sides } = narrowed(BOTH, operation.side ?? step.side ?? step.section.side, 'operation');
      for (const item of operation.target.items()) {
        if (item.text === null) continue;
        const { target } = scope.targets.named(item.text, item.place, frame, NAMED);
        if (target?.type !== 'part' && target?.type !== 'line') continue;
        const fits = target.type === 'line' ? state !== 'fitted' : state !== 'connected';
        if (fits)
          last.set(`${item.text} ${sides.join()}`, { target, state, place: item.place, set: 1, sides });
      }
    }
  return [...last.values()];
}

/** What a guide follows, unless that leads back to the guide itself, which is reported. */
export function soundlyFollowed(
  root: Cursor,
  library: Library,
  report: Report,
): { readonly document: OpenDocument | null; readonly circular: boolean } {
  const first = followedGuide(root, library);
  const seen = new Set<string>();
  for (let at = first; at !== null && !seen.has(at.uri); at = followedGuide(Cursor.of(at), library)) {
    if (at.uri !== root.document.uri) {
      seen.add(at.uri);
      continue;
    }
    const path = root.get('follows')!;
    const way = first === at ? '' : `, by way of "${shown(path.text!)}"`;
    report.add('circular-reference', path.place, `This guide follows itself${way}.`);
    return { document: null, circular: true };
  }
  return { document: first, circular: false };
}

/** The duties handed over with the vehicle, one for each thing that is named. */
export function bindDuties(frame: Frame, scope: OperationScope): Duty[] {
  return itemsAt(frame.outline.root, 'owes').flatMap((cursor): Duty[] => {
    const checks = itemsAt(cursor, 'check').filter((item) => item.text !== null);
    if (checks.length === 0) return [];
    const condition = { all: [scope.guards.frame(frame), scope.guards.condition(frame, cursor.get('when'))] };
    const { set } = scope.reader.set(scope.world, condition, scope.report);
    const qualifiers = new Map(
      ['after', 'before', 'because'].flatMap((key): [string, string][] => {
        const text = cursor.get(key)?.text;
        return text === null || text === undefined ? [] : [[key, text]];
      }),
    );
    return checks.flatMap((check): Duty[] => {
      const { target } = scope.targets.ofVerb(check, frame, 'check', VERBS.get('check')!);
      return target === null ? [] : [{ verb: 'check', target, qualifiers, place: check.place, set }];
    });
  });
}
