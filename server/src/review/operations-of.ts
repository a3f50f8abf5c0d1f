/** The operations of a step, one for each thing they act on: a list is short for several. */

import type { Attributes, BoundOperation, BoundStep, Model, Target } from '../model/model';
import type { OperationOutline, StepOutline } from '../model/outline';
import { wordsOf } from '../model/titles';
import { otherUnit, printQuantity } from '../units/format';
import type { Quantity } from '../units/quantity';
import type { FigureAccount, OperationAccount, Said, Weight } from './account';
import { conditionOf, sideWritten } from './account-of';
import { said, shownValue } from './said';
import { variantsOf } from './variants-told';

const HOLDING = new Set('support hold chock isolate compress deflate relax'.split(' '));
const SECURING = new Set('torque bleed check measure fill seat connect clip restore snug'.split(' '));
const LIFTING = new Set('raise lower support unsupport'.split(' '));
const VITAL = new Set(
  'suspension steering brakes wheels driveline airbags high-voltage fuel towing'.split(' '),
);

/** Keys that are told by themselves, or are none of the operation's meaning. */
const OWN = new Set(['side', 'when', 'waive', 'with']);

export function operationsOf(
  stretches: readonly BoundStep[],
  outline: StepOutline,
  model: Model,
): OperationAccount[] {
  const bound = new Map<string, BoundOperation[]>();
  for (const { operations } of stretches)
    for (const operation of operations) {
      const path = operation.path.slice(operation.path.lastIndexOf('/') + 1);
      bound.set(path, [...(bound.get(path) ?? []), operation]);
    }
  return outline.operations.flatMap((written) =>
    accountsOf(written, bound.get(written.path) ?? [], stretches[0]!, model),
  );
}

function accountsOf(
  written: OperationOutline,
  runs: readonly BoundOperation[],
  step: BoundStep,
  model: Model,
): OperationAccount[] {
  const { cursor, verb, target, path } = written;
  const operation = runs[0] ?? null;
  const qualifiers = new Map(
    cursor.entries().flatMap(([key, value]): [string, Said][] => {
      if (key === verb || OWN.has(key) || (key === 'to' && figuresSaid(operation))) return [];
      return [[key, { key: said(value.value), shown: shownValue(value.value), place: value.place }]];
    }),
  );
  const aids =
    operation === null
      ? (cursor.get('with')?.texts ?? [])
      : aidsOf(operation, cursor.get('with')?.texts ?? []);
  const shared = {
    verb,
    side: sideWritten(written.side),
    sides: [...new Set(runs.flatMap(({ sides }) => sides))].join(', '),
    condition: conditionOf(written.when, model, operation?.guard ?? step.guard),
    aids,
    figures: operation === null ? null : figuresOf(operation, model),
    qualifiers,
    path,
  };
  const things: {
    readonly item: string;
    readonly target: Target | null;
    readonly place: OperationAccount['place'];
  }[] =
    operation === null
      ? target
          .items()
          .map((item) => ({ item: item.text ?? shownValue(item.value), target: null, place: item.place }))
      : operation.targets.map((one) => ({
          item: itemOf(one),
          target: one,
          place:
            operation.targets.length > 1 ? { uri: operation.place.uri, span: one.span } : operation.place,
        }));
  // What is cut off, let out or let down is safe only after a while.
  const safeAfterWaiting = step.operations.some(({ verb: other }) => HOLDING.has(other) || other === 'drain');
  return things.map(({ item, target: one, place }) => ({
    ...shared,
    item,
    words:
      operation === null || one === null
        ? `${verb} ${item}`
        : wordsOf({ ...operation, targets: [{ ...one, written: item }] }, oneSide(shared.side)),
    place,
    weight: weightOf(verb, one, safeAfterWaiting),
  }));
}

const oneSide = (side: string): string | null => (side === 'left' || side === 'right' ? side : null);

/** Names as their files have them: the guide may write another word for the same. */
export function itemOf(target: Target): string {
  switch (target.type) {
    case 'part':
      return target.part.name;
    case 'joint':
      return target.joint.full;
    case 'piece':
      return `${target.joint.full}.${target.piece}`;
    case 'end':
      return target.end.full;
    case 'hole':
      return target.hole.full;
    case 'face':
      return target.face.full;
    case 'line': {
      const [only, ...more] = target.lines;
      const name = only === undefined || more.length > 0 ? target.written : only.name;
      return target.end === null || name.endsWith(`.${target.end}`) ? name : `${name}.${target.end}`;
    }
    case 'built-in':
      return target.name;
    case 'words':
      return target.text.trim();
  }
}

function aidsOf({ aids, withTargets }: BoundOperation, written: readonly string[]): string[] {
  const known = [...aids.map(({ name }) => name), ...withTargets.map(itemOf)];
  return known.length > 0 ? known : [...written];
}

const figuresSaid = (operation: BoundOperation | null): boolean =>
  operation !== null && operation.figure.length > 0;

function figuresOf({ figure, guard }: BoundOperation, model: Model): FigureAccount | null {
  if (figure.length === 0) return null;
  const { diagrams } = model.world;
  const done = diagrams.and(guard, model.universe);
  let left = done;
  const told: { readonly variants: string; readonly value: Quantity | 'maker' }[] = [];
  for (const { set, value } of figure) {
    const here = diagrams.and(left, set);
    if (here === 0) continue;
    left = diagrams.minus(left, set);
    // What is left over is told as the rest.
    const whole = left === 0 && told.length > 0;
    told.push({ variants: whole ? 'else' : (variantsOf(model, here, done).words ?? ''), value });
  }
  const [only] = told;
  return {
    key: told.map(({ variants, value }) => `${variants} ${keyOfFigure(value)}`).join('; '),
    shown: told
      .map(({ variants, value }) =>
        [variants === 'else' ? 'else' : '', shownFigure(value), variants === 'else' ? '' : variants]
          .filter(Boolean)
          .join(' '),
      )
      .join(', '),
    only: told.length === 1 && only !== undefined && only.value !== 'maker' ? only.value : null,
  };
}

const keyOfFigure = (value: Quantity | 'maker'): string =>
  value === 'maker' ? value : `${Number(value.low.toPrecision(6))}-${Number(value.high.toPrecision(6))}`;

/** In both units. */
export function shownFigure(value: Quantity | 'maker'): string {
  if (value === 'maker') return "the vehicle maker's figure";
  const other = otherUnit(value);
  return other === undefined ? printQuantity(value) : `${printQuantity(value)} (${other})`;
}

function weightOf(verb: string, target: Target | null, safeAfterWaiting: boolean): Weight {
  return {
    holds: HOLDING.has(verb),
    secures: SECURING.has(verb) || (verb === 'wait' && safeAfterWaiting),
    lifts: LIFTING.has(verb),
    vital: target !== null && isVital(target),
  };
}

function isVital(target: Target): boolean {
  switch (target.type) {
    case 'part':
      return vital(target.part.attributes) || [...target.part.joints.values()].some((one) => one.structural);
    case 'joint':
    case 'piece':
      return target.joint.structural || vital(target.joint.part.attributes);
    case 'end':
      return vital(target.end.part.attributes);
    case 'line':
      return target.lines.some(({ lineType }) => lineType === 'hydraulic' || lineType === 'fuel');
    default:
      return false;
  }
}

/** Parts that wheels, steering and brakes hang on. */
export const vital = ({ system, axle, arm, wheel, hub }: Attributes): boolean =>
  axle || arm || wheel || hub || (system !== null && VITAL.has(system));
