// Random house rules: every family, relation and re-arming, over what random projects have.
import type { Random } from './random.ts';
import type { Raw } from './raw.ts';

const VERBS = [
  'loosen',
  'remove',
  'snug',
  'torque',
  'unbolt',
  'bolt-up',
  'fit',
  'check',
  'raise',
  'lower',
  'support',
];
const MORE = [
  ...VERBS,
  'discard',
  'disconnect',
  'connect',
  'unsupport',
  'swing',
  'clean',
  'apply',
  'record',
  'bleed',
];
const KINDS = [
  'wheel',
  'shock',
  'axle',
  'coil-spring',
  'brake-hose',
  'track-bar',
  'bracket',
  'undertray',
  'plug',
];
const NAMES = ['front-axle', 'rear-wheel', 'front-shock', 'undertray', 'battery', 'vehicle', 'front'];
const WHAT = ['joint', 'part', 'line', 'built-in', 'words'];
const JOINT_STATES = ['tight', 'loose', 'out', 'started', 'snug', 'final'];
const PART_STATES = ['fitted', 'off', 'swung', 'discarded', 'boxed'];

/** These change no joint or part, so that what is taken for granted there is not opened by the same operation. */
const STILL_VERBS = ['check', 'raise', 'lower', 'support'];
const ASKED_VERBS = ['loosen', 'snug', 'torque', 'check', 'raise', 'lower', 'support'];
/** Those that a finding may take for granted without owing a fate. */
const ASSUMED_STATES = ['fitted', 'off'];

/** A pack with a few rules that are all on. */
export function randomPack(random: Random): Raw {
  const rules = Array.from({ length: 6 }, (_, index) => randomRule(random, `house-rule-${index}`));
  return { kitproof: 'rules/1', pack: 'house', rules };
}

function randomRule(random: Random, id: string): Raw {
  const rule: Raw = {
    id,
    core: true,
    harm: 'rework',
    says: '{item}.',
    reason: 'So it is.',
    watch: watch(random),
  };
  const family = random.below(7);
  // What a state is asked of keeps to verbs that no rule of the program judges by the same state.
  if (family === 1) rule.watch = { ...watch(random), verb: random.some(STILL_VERBS, 1, 3) };
  if (family === 2) rule.watch = { ...watch(random), verb: random.some(ASKED_VERBS, 1, 3) };
  if (family === 0) rule.never = true;
  else if (family === 1) rule.needs = need(random, ASSUMED_STATES);
  else if (family === 2) rule['never-while'] = need(random);
  else if (family === 3) rule.first = earlier(random);
  else if (family === 4) {
    const later = event(random);
    if (random.chance(0.4)) later.earlier = true;
    if (random.chance(0.4)) later.before = event(random);
    rule.later = later;
  } else if (family === 5) rule['at-most-once'] = true;
  else rule.next = event(random);
  if (random.chance(0.25)) rule.unless = [random.one<Raw>([{ people: 2 }, { caution: true }, need(random)])];
  return rule;
}

function watch(random: Random): Raw {
  const made: Raw = {};
  if (random.chance(0.85)) made.verb = random.some(VERBS, 1, 3);
  if (random.chance(0.4)) made.kind = random.some(KINDS, 1, 3);
  if (random.chance(0.2)) made.what = random.some(WHAT, 1, 2);
  if (random.chance(0.1)) made.item = random.some(NAMES, 1, 3);
  if (random.chance(0.3)) made.after = earlier(random);
  return made;
}

function event(random: Random): Raw {
  const made: Raw = { verb: random.some(MORE, 1, 3) };
  if (random.chance(0.6)) made.of = random.chance(0.1) ? 'any' : related(random);
  return made;
}

function earlier(random: Random): Raw {
  const made = event(random);
  if (random.chance(0.5)) {
    const since: Raw = { verb: random.some(MORE, 1, 3) };
    if (random.chance(0.3))
      since.of = random.one<unknown>(['any', 'vehicle', { kind: random.some(KINDS, 1, 2) }]);
    made.since = since;
  }
  return made;
}

function need(random: Random, partStates = PART_STATES): Raw {
  const made: Raw = { state: random.some(random.one([JOINT_STATES, partStates]), 1, 2) };
  if (random.chance(0.7)) made.of = related(random);
  if (random.chance(0.3)) made.every = true;
  return made;
}

function related(random: Random): unknown {
  return random.one<() => unknown>([
    () => 'same',
    () => 'part',
    () => 'joints',
    () => 'axle',
    () => 'vehicle',
    () => ({ item: random.some(NAMES, 1, 2) }),
    () => ({ kind: random.some(KINDS, 1, 2), on: random.one(['axle', 'side', 'vehicle']) }),
    () => ({ words: random.some(['toe', 'alignment', 'ride-height'], 1, 2) }),
  ])();
}
