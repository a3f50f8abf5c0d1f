/** What a guide says of before and after: `given`, `leaves`, `owes`. */

import { BOTH, narrowed } from './guards';
import type { BoundOperation, Duty, StateEntry, Target } from './model';
import { nearestName } from './nearest';
import { bindOperation } from './operations';
import { operationOutlines } from './outline';
import { shown, suggestion } from './report';
import type { Frame } from './runs';
import type { OperationScope } from './scope';
import { type Cursor, itemsAt } from './source';
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
    if (outline.verb === 'use') {
      const message =
        'A section cannot be given: say in what state it leaves things, or write its operations.';
      scope.report.add('given-use', outline.cursor.header, message);
      return [];
    }
    return bindOperation(frame, null, outline, sides, new Map(), scope).operation ?? [];
  });
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
