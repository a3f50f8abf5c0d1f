/** What closes each debt of the open list. */

import type { Value } from '../../edit/write';
import type { Joint, Part } from '../../model/model';
import { normalValue } from '../../simulate/effects-rest';
import { asWritten } from './aids';
import { closings } from './closing-places';
import { barOf } from './figures';
import { eventsOn, type Fault, type Plan } from './repair';
import { isSuperseded } from './superseded';
import { entry, narrowing, standsAway, type Work } from './work';

/** Plans that close the debt that a finding tells of. */
export function* closed(fault: Fault): Generator<Plan | null> {
  const { thing, finding } = fault;
  if (thing?.type === 'line' && OF_LINES.has(finding.rule) && isSuperseded(fault, thing))
    for (const work of simply(fault, 'discard')) yield* closings(fault, work);
  else for (const work of CLOSES[finding.rule]?.(fault) ?? []) yield* closings(fault, work);
}

/** What is owed of a line that stays: one that another has taken the place of is scrap. */
const OF_LINES: ReadonlySet<string> = new Set([
  'left-disconnected',
  'left-unclipped',
  'left-unbled',
  'left-unchecked',
]);

/** The rules of the open list. */
export const DEBTS: ReadonlySet<string> = new Set([
  'left-loose',
  'left-without-pin',
  'left-pilot',
  'left-off',
  'left-swung',
  'left-unused',
  'left-without',
  'left-disconnected',
  'left-unclipped',
  'left-unseated',
  'left-unbled',
  'left-unchecked',
  'left-held',
  'left-compressed',
  'left-supported',
  'left-raised',
  'left-isolated',
  'left-switched',
  'left-drained',
  'left-deflated',
  'left-unloaded',
  'left-unprotected',
]);

const CLOSES: Readonly<Record<string, (fault: Fault) => Work[]>> = {
  'left-loose': (fault) => {
    const joint = jointOf(fault);
    if (joint === null) return [];
    const figure = joint.torque === null ? { to: 'maker' } : {};
    const wasOut = eventsOn(fault, ['remove'], [joint.full]).length > 0;
    const alone = alike(
      fault,
      (narrow) => [entry('torque', joint.full, { ...figure, ...narrow })],
      piecesOf([joint], wasOut),
      joint.part,
    );
    // Joints of one part that were undone together are tightened together.
    const joints = [...joint.part.joints.values()];
    const open = fault.check.findings.filter(
      ({ rule, item = '' }) => rule === 'left-loose' && item.split('.')[0] === joint.part.name,
    );
    if (open.length < 2 || open.length < joints.length) return alone;
    const whole = (narrow: Narrow) => [torqued(joint.part, narrow)];
    return [...alike(fault, whole, piecesOf(joints, wasOut), joint.part), ...alone];
  },
  'left-without-pin': (fault) => simply(fault, 'renew', `${fault.finding.item}.pin`),
  'left-pilot': (fault) => {
    const part = partOf(fault);
    const hole = part?.holes.get((fault.finding.item ?? '').split('.')[1] ?? '');
    const size = hole?.size == null ? {} : { to: `${hole.size} mm` };
    return [{ entries: [entry('drill', fault.finding.item ?? '', size)] }];
  },
  'left-off': (fault) => {
    const part = partOf(fault);
    if (part === null) return [];
    const replaced = [...fault.model.things.values()].some(({ replaces }) => replaces.includes(part));
    const scrap: Work[] = simply(fault, 'discard', part.name);
    const back = alike(fault, (narrow) => backOn(part, narrow), piecesOf([...part.joints.values()]), part);
    if (replaced) return isSuperseded(fault, part) ? scrap : [...scrap, ...back];
    // Of names that no file declares nobody knows what comes in their place.
    return part.origin === 'implied' ? [...back, ...scrap] : back;
  },
  'left-swung': (fault) => {
    const part = partOf(fault);
    if (part === null) return [];
    const on = (narrow: Narrow) => [
      entry('fit', part.name, narrow),
      ...(part.joints.size === 0 ? [] : [torqued(part, narrow)]),
    ];
    return alike(fault, on, piecesOf([...part.joints.values()]), part);
  },
  'left-unused': (fault) => {
    const { thing } = fault;
    if (thing === null) return [];
    if (thing.type === 'line')
      return [{ entries: [entry('route', thing.name), entry('connect', thing.name)] }];
    return alike(fault, (narrow) => backOn(thing, narrow), {}, thing);
  },
  'left-without': (fault) => {
    const old = partOf(fault);
    return [...fault.model.things.values()]
      .filter((thing): thing is Part => thing.type === 'part' && old !== null && thing.replaces.includes(old))
      .flatMap((fresh) => alike(fault, (narrow) => backOn(fresh, narrow), {}, fresh));
  },
  'left-disconnected': (fault) => {
    const ends = [...new Set(fault.raw.map(({ facts }) => facts.end ?? ''))].filter((end) => end !== '');
    const all = fault.thing?.type === 'line' ? fault.thing.ends.filter((end) => end !== '') : [];
    const more =
      ends.length > 0 && ends.length < all.length ? { end: ends.length === 1 ? ends[0]! : ends } : {};
    return narrowing(fault, fault.thing).map((narrow) => ({
      entries: [entry('connect', fault.finding.item ?? '', { ...more, ...narrow })],
    }));
  },
  'left-unclipped': (fault) => simply(fault, 'clip'),
  'left-unseated': (fault) => simply(fault, 'seat'),
  'left-unbled': (fault) => simply(fault, 'bleed', undefined, 'check'),
  'left-unchecked': (fault) => simply(fault, 'check'),
  'left-held': (fault) => simply(fault, 'release'),
  'left-compressed': (fault) => simply(fault, 'relax'),
  'left-supported': (fault) => {
    const aid = fault.fact('aid');
    const more =
      aid === '' || aid === 'unnamed' || aid === 'what was put there' ? {} : { with: asWritten(fault, aid) };
    return [{ entries: [entry('unsupport', fault.finding.item ?? '', more)] }];
  },
  'left-raised': (fault) => [{ entries: [entry('lower', 'vehicle')] }, ...standsAway(fault)],
  'left-isolated': (fault) => simply(fault, 'restore'),
  'left-switched': (fault) => {
    const name = fault.finding.item ?? '';
    return [{ entries: [entry('switch', name, { to: normalValue(fault.simulation, name) || 'off' })] }];
  },
  'left-drained': (fault) => simply(fault, 'fill'),
  'left-deflated': (fault) => {
    const part = partOf(fault);
    const to =
      part?.pressure == null
        ? {}
        : { to: barOf(Math.round((part.pressure.low + part.pressure.high) / 20) * 10) };
    return narrowing(fault, part).map((narrow) => ({
      entries: [entry('inflate', fault.finding.item ?? '', { ...to, ...narrow })],
    }));
  },
  'left-unloaded': (fault) => {
    const part = partOf(fault);
    const adjusters = [...fault.model.things.values()].filter(
      (thing) =>
        thing.type === 'part' &&
        part !== null &&
        thing.joins.includes(part) &&
        thing.kinds.includes('adjuster'),
    );
    return [...adjusters, ...(part === null ? [] : [part])].map(({ name }) => ({
      entries: [entry('adjust', name)],
    }));
  },
  'left-unprotected': (fault) => {
    const name = fault.finding.item ?? '';
    return [{ entries: [entry('coat', name)] }, { entries: [entry('deburr', name), entry('coat', name)] }];
  },
};

type Narrow = Readonly<Record<string, Value>>;

/** One operation on the item of a finding, on its sides, and more of them in the same step. */
function simply(fault: Fault, verb: string, name = fault.finding.item ?? '', ...more: string[]): Work[] {
  return narrowing(fault, fault.thing).map((narrow) => ({
    entries: [verb, ...more].map((one) => entry(one, name, narrow)),
  }));
}

/** The same work with new pieces and without; on each of the sides. */
function alike(fault: Fault, make: (narrow: Narrow) => Work['entries'], pieces: Narrow, part: Part): Work[] {
  return narrowing(fault, part).flatMap((narrow) => {
    const plain = make(narrow);
    if (Object.keys(pieces).length === 0) return [{ entries: plain }];
    const renewed = plain.map((one) => ('torque' in one ? { ...one, ...pieces } : one));
    return [{ entries: renewed }, { entries: plain }];
  });
}

const backOn = (part: Part, narrow: Narrow): Work['entries'] =>
  part.joints.size === 0
    ? [entry('fit', part.name, narrow)]
    : [entry('bolt-up', part.name, narrow), torqued(part, narrow)];

function torqued(part: Part, narrow: Narrow) {
  const joints = [...part.joints.values()];
  const figure = joints.some(({ torque }) => torque === null) ? { to: 'maker' } : {};
  const [only] = joints;
  return entry('torque', joints.length === 1 && only !== undefined ? only.full : part.name, {
    ...figure,
    ...narrow,
  });
}

/** `new:` with the pieces of joints that are used up, once they were out or slackened. */
function piecesOf(joints: readonly Joint[], wereOut = true): Narrow {
  const used = ({ singleUse }: Joint) =>
    [...singleUse].flatMap(([name, when]) => (wereOut || when === 'slackened' ? [name] : []));
  const names = [...new Set(joints.flatMap(used))];
  return names.length === 0 ? {} : { new: names };
}

function jointOf(fault: Fault): Joint | null {
  const [, name = ''] = (fault.finding.item ?? '').split('.');
  return partOf(fault)?.joints.get(name) ?? null;
}

const partOf = ({ thing }: Fault): Part | null => (thing?.type === 'part' ? thing : null);
