import type { Checking, Holder, Key } from './checking';
import { replacing } from './checking';
import type { Value } from './convert';
import { stepValidator, verbValidators } from './generated/tables';
import type { InvalidOperation, Operation, Step, Verb } from './generated/types';
import { type Outcome, pruneMap } from './prune';
import { guideSpot, type Spot } from './spots';
import { checkStructure } from './structure';
import { valueAt } from './values';
import { isOnlySlip, nearest, quoted } from './words';

/** Every verb, in the order of the schema. */
export const VERBS = Object.keys(verbValidators) as readonly Verb[];

const isVerb = (key: string): key is Verb => Object.hasOwn(verbValidators, key);

/** What the trade says beside the verbs there are, and the verb that does it. */
const TRADE_WORDS: { readonly [word: string]: Verb | undefined } = Object.assign(Object.create(null), {
  tighten: 'torque',
  install: 'fit',
  mount: 'fit',
  refit: 'fit',
  reinstall: 'fit',
  jack: 'raise',
  'jack-up': 'raise',
  lift: 'raise',
  unplug: 'disconnect',
  plug: 'connect',
  'plug-in': 'connect',
  replace: 'renew',
  undo: 'loosen',
  slacken: 'loosen',
  unscrew: 'loosen',
  'take-off': 'remove',
  'take-out': 'remove',
  detach: 'remove',
  hang: 'hold',
  tie: 'hold',
} satisfies Record<string, Verb>);

/**
 * Checks one operation. Its verb is decided first, and only what that verb allows is asked for, so that one mistake is
 * one finding. 'dropped' means that it cannot be run.
 */
export function checkOperation(checking: Checking, holder: Holder, key: Key): Outcome {
  const operation = valueAt(holder, key) as { [key: string]: Value };
  const verbs = Object.keys(operation).filter(isVerb);
  const verb = verbs[0];
  if (verb === undefined) {
    reportNoVerb(checking, operation);
    return 'dropped';
  }
  if (verbs.length > 1) {
    const written = checking.places.keys(operation).filter(isVerb);
    const [first, second] = written.length > 1 ? written : verbs;
    const message = `${quoted(first!)} and ${quoted(second!)} stand in one operation; give each an entry of its own.`;
    checking.report('several-verbs', checking.places.key(operation, second!), message);
    return 'dropped';
  }
  return checkWith(checking, operation, verbValidators[verb], guideSpot(`verb-${verb}`));
}

/** Checks a step that stands in an example. */
export function checkStep(checking: Checking, holder: Holder, key: Key): Outcome {
  return checkWith(
    checking,
    valueAt(holder, key) as { [key: string]: Value },
    stepValidator,
    guideSpot('step'),
  );
}

function checkWith(
  checking: Checking,
  map: { [key: string]: Value },
  validator: typeof stepValidator,
  spot: Spot,
): Outcome {
  return checkStructure(checking, validator, map, spot) ? pruneMap(checking, map, spot) : 'dropped';
}

function reportNoVerb(checking: Checking, operation: { [key: string]: Value }): void {
  const { places, placeKeys } = checking;
  if (places.damaged(operation)) return;
  const keys = places.keys(operation);
  const strange = keys.find((name) => !QUALIFIERS.has(name) && !placeKeys.has(name));
  if (strange === undefined) {
    const message = 'This operation has no verb; say what is done and to what, such as unbolt: front-wheel.';
    checking.report('no-verb', places.header(operation), message);
    return;
  }
  const place = places.key(operation, strange);
  const others = keys.filter((name) => name !== strange && QUALIFIERS.has(name));
  const fitting = VERBS.filter((verb) => {
    const allowed = guideSpot(`verb-${verb}`).schema.properties ?? {};
    return others.every((name) => Object.hasOwn(allowed, name));
  });
  const near = TRADE_WORDS[strange.toLowerCase()] ?? nearest(strange, fitting) ?? nearest(strange, VERBS);
  const end =
    near === null ? 'verbs are such as remove, fit, torque or check' : `${quoted(near)} was probably meant`;
  const safe = near !== null && isOnlySlip(strange, VERBS);
  const fixes = near === null ? [] : [replacing(place, near, `Write ${quoted(near)}`, safe)];
  checking.report('unknown-verb', place, `${quoted(strange)} is not a verb that is known; ${end}.`, fixes);
}

/** Every key that may stand beside some verb. */
const QUALIFIERS: ReadonlySet<string> = new Set(
  VERBS.flatMap((verb) => Object.keys(guideSpot(`verb-${verb}`).schema.properties ?? {})).filter(
    (name) => !isVerb(name),
  ),
);

/** The verb of an operation; null for one that could not be read. */
export function verbOf(operation: Operation | InvalidOperation): Verb | null {
  for (const key in operation) if (isVerb(key)) return key;
  return null;
}

/** What an operation acts on, as written. For `wait` its time; for `use` the section where it is said as one word. */
export function targetsOf(operation: Operation | InvalidOperation): readonly string[] {
  const verb = verbOf(operation);
  const target = verb === null ? undefined : (operation as unknown as Record<string, unknown>)[verb];
  if (Array.isArray(target)) return target as string[];
  return typeof target === 'string' ? [target] : [];
}

/** A qualifier of an operation whichever its verb; undefined where it does not stand. */
export function qualifierOf(operation: Operation | InvalidOperation, name: string): unknown {
  return Object.hasOwn(operation, name) ? (operation as unknown as Record<string, unknown>)[name] : undefined;
}

/** The place qualifiers of a step or an operation, of those keys that the model knows. */
export function placesOf(
  thing: Operation | InvalidOperation | Step,
  placeKeys: ReadonlySet<string>,
): Readonly<Record<string, readonly string[]>> {
  const places: Record<string, readonly string[]> = Object.create(null);
  for (const [key, value] of Object.entries(thing)) {
    if (placeKeys.has(key)) places[key] = Array.isArray(value) ? (value as string[]) : [String(value)];
  }
  return places;
}
