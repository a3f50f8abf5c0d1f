import { addAidNames, listAids, UNNAMED, UNNAMED_JACK } from '../../simulate/aids';
import { cornersChocked } from '../../simulate/effects';
import { endsOf, heldNames } from '../../simulate/effects-rest';
import { type Event, nameOf, thingOf } from '../../simulate/event';
import {
  assumed,
  awaited,
  corner as cornerItems,
  end as endItems,
  joint as jointItems,
  line as lineItems,
  named,
  part as partItems,
} from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { axleSpot, bodySpot, onGround, type Spot, spotsOf } from '../../simulate/spots';
import type { Branch, Item } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import { keyOf } from '../related';
import type { Builtin } from './builtin';

const RULE = 'undo-undone';
const GONE = new Set<unknown>(['off', 'discarded', 'boxed', 'offered']);
/** What a verb does to what it undoes, for the sentence. */
const IN_WORDS: Readonly<Record<string, string>> = {
  unsupport: 'taken off its support',
  release: 'let go',
  restore: 'made live',
  unchock: 'unchocked',
  unclip: 'unclipped',
  lower: 'let down',
};
const HELD = new Set(['unsupport', 'release']);

/** Nothing is undone twice, or without having been done. */
export const undoUndone: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [
      ...['remove', 'loosen', 'unbolt', 'swing', 'disconnect', 'free', ...Object.keys(IN_WORDS)],
      ...['raise', 'support'],
    ],
    before(sim, branch, event) {
      const { subject, at, verb } = event;
      if (event.within !== null) return undefined;
      if (mayBeUndone(event)) ask(sim, branch, event, RULE);
      if (!isUndone(sim, branch, event)) return undefined;
      const thing = subject.type === 'line' ? subject.line.name : nameOf(subject);
      const granted = branch.get(assumed(thing, at)) === true;
      if (granted || (HELD.has(verb) && branch.get(awaited(keyOf(event))) === true)) return 'stop';
      flag(sim, branch, event, RULE, nameOf(subject), { facts: { undone: IN_WORDS[verb] ?? 'undone' } });
      // Let down onto stands, it is as if it had been up: they are taken away later on.
      return verb === 'lower' ? undefined : 'stop';
    },
    afterSpot(_sim, branch, event, spot) {
      if (event.verb === 'unsupport') return;
      const put = listAids(branch.get(spot.aids));
      if (put.length > 0) branch.put(wasUnder(spot), addAidNames(branch.get(wasUnder(spot)), put));
    },
  }),
};

/** Whether there is anything to ask of an event: putting something up undoes nothing. */
const mayBeUndone = (event: Event): boolean =>
  event.subject.type !== 'words' &&
  event.verb !== 'raise' &&
  event.verb !== 'support' &&
  (event.verb !== 'lower' || isWhole(event));

/** Every aid that ever stood at a corner, under body or axle, or under a part. */
const wasUnder = (spot: Spot): Item => ({
  kind: 'was-under',
  of: spot.level === 'part' ? spot.part.name : spot.corner.key,
  at: spot.level === 'part' ? spot.at.key : '',
  initial: '',
});

function isUndone(sim: Simulation, branch: Branch, event: Event): boolean {
  const { subject, at, verb } = event;
  switch (verb) {
    case 'raise':
    case 'support':
      return false;
    case 'lower':
      return isWhole(event) && standsOnGround(sim, branch, event);
    case 'unsupport':
      return !spotsOf(sim, subject, at, event.operation, event.pass).some((spot) =>
        stood(branch, event, spot),
      );
    case 'release':
      return (
        !heldNames(subject).some((name) => branch.get(named.hold(name, at)) !== '') &&
        !isAssumedHeld(branch, event)
      );
    case 'restore':
      return branch.get(named.safe(nameOf(subject))) !== true;
    case 'unchock':
      return !cornersChocked(sim, subject, at).some(
        (corner) => branch.get(cornerItems.chocked(corner)) === true,
      );
    case 'unclip':
      return subject.type === 'line' && branch.get(lineItems.clipped(subject.line, at)) === false;
  }
  if (subject.type === 'joint') return branch.get(jointItems.position(subject.joint, at)) === 'out';
  if (subject.type === 'part') return GONE.has(branch.get(partItems.state(subject.part, at)));
  if (subject.type === 'end') return branch.get(endItems.freed(subject.end, at)) === true;
  if (subject.type !== 'line') return false;
  const { line, end } = subject;
  if (verb !== 'disconnect') return GONE.has(branch.get(lineItems.state(line, at)));
  const ends = end === null ? endsOf(line) : [end];
  return ends.every((name) => branch.get(lineItems.connected(line, name, at)) === false);
}

/** The vehicle, or an end of it. */
const isWhole = ({ subject }: Event): boolean =>
  subject.type === 'built-in' && ['vehicle', 'front', 'rear'].includes(subject.name);

/** Whether every corner that is to be let down stands on its wheel, on the ground. */
function standsOnGround(sim: Simulation, branch: Branch, event: Event): boolean {
  const spots = spotsOf(sim, event.subject, event.at, event.operation, event.pass);
  return (
    spots.length > 0 && spots.every((spot) => spot.level === 'body' && onGround(sim, branch, spot.corner))
  );
}

/** Whether what `unsupport` takes away was ever put there, or a finding took it for granted. */
function stood(branch: Branch, event: Event, spot: Spot): boolean {
  if (spot.level === 'part') {
    if (branch.get(partItems.assumedHeld(spot.part, spot.at)) === true) return true;
  } else {
    const { axle, at } = spot.corner.group;
    if (branch.get(cornerItems.assumedBlocked(spot.corner)) === true) return true;
    if (axle !== null && branch.get(partItems.assumedHeld(axle, at)) === true) return true;
  }
  // What stands there under another name is told when it is left.
  if (present(branch, spot)) return true;
  const { aids } = event.operation;
  const were = listAids(branch.get(wasUnder(spot)));
  if (aids.length === 0) return were.length > 0;
  return were.some(
    (name) => name === UNNAMED.name || name === UNNAMED_JACK.name || aids.some((aid) => aid.name === name),
  );
}

function present(branch: Branch, spot: Spot): boolean {
  if (spot.level === 'part') return branch.get(spot.aids) !== '';
  return [bodySpot(spot.corner), axleSpot(spot.corner)].some(({ aids }) => branch.get(aids) !== '');
}

function isAssumedHeld(branch: Branch, { subject, at }: Event): boolean {
  const thing = thingOf(subject);
  return thing?.type === 'part' && branch.get(partItems.assumedHeld(thing, at)) === true;
}
