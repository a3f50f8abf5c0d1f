/** What must come before an operation, by the rules that the program holds. */

import type { Aid, Part, Thing } from '../../model/model';
import { partOf } from '../../model/target';
import { nameOf } from '../../simulate/event';
import { aidFor, asWritten, canDo, carries, takenAway } from './aids';
import { barOf } from './figures';
import { isLight, jackFor, mayStandUnder, tieFor } from './holding';
import { eventsOn, type Fault, type Plan } from './repair';
import { before, entry, movesBefore, narrowing, type Work } from './work';

const works = (...entries: Work['entries'][number][]): Work[] => (entries.length === 0 ? [] : [{ entries }]);

/** Each rule to the works of which one would do. */
const NEEDS: Readonly<Record<string, (fault: Fault) => Work[]>> = {
  'loosen-before-remove': (fault) => {
    const part = fault.thing?.type === 'part' ? fault.thing : null;
    const [narrow] = narrowing(fault, part);
    if (part === null || narrow === undefined) return [];
    if ((fault.finding.item ?? '').includes('.')) return works(entry('loosen', fault.finding.item!, narrow));
    const joints = [...part.joints.values()].map(({ full }) => full);
    if (fault.event?.verb !== 'swing') return works(entry('remove', one(joints), narrow));
    // It swings about one joint that is loose, with the others out.
    return joints.map((pivot) => {
      const others = joints.filter((joint) => joint !== pivot);
      const out = others.length === 0 ? [] : [entry('remove', one(others), narrow)];
      return { entries: [entry('loosen', pivot, narrow), ...out] };
    });
  },
  'old-part-still-on': (fault) =>
    works(entry('unbolt', fault.fact('old')), entry('discard', fault.fact('old'))),
  'discard-fitted': (fault) =>
    fault.thing?.type === 'line'
      ? works(entry('disconnect', fault.thing.name))
      : works(entry('unbolt', fault.finding.item ?? '')),
  'joint-needs-part': ({ event }) => {
    const part = event === null ? null : partOf(event.subject);
    return part === null ? [] : works(entry('fit', part.name));
  },
  'free-end-first': (fault) => {
    const tool = aidFor(fault, 'free', () => false) ?? fault.rule?.repair?.with ?? null;
    return works(entry('free', fault.finding.item ?? '', tool === null ? {} : { with: tool }));
  },
  'nut-still-on': (fault) => works(entry('loosen', fault.fact('joint'))),
  'still-joined': (fault) => works(entry('unbolt', fault.fact('other'))),
  // What the guide itself has put on is not taken off again: it was put on too early.
  reach: (fault) => (wasPutOn(fault, fault.fact('cover')) ? [] : works(entry('unbolt', fault.fact('cover')))),
  'support-axle-before-shock-removal': (fault) => supported(fault, fault.fact('drops')),
  'lower-unheld': (fault) => supported(fault, fault.finding.item ?? ''),
  'heavy-part-held': (fault) => supported(fault, fault.finding.item ?? ''),
  'stands-before-work-beneath': (fault) =>
    [...new Set([...raisedTargets(fault).flatMap(withItsEnd), 'vehicle'])].flatMap((target) =>
      onStands(fault, target),
    ),
  'body-held-before-spring': (fault) =>
    ['vehicle', 'front', 'rear'].flatMap((target) => onStands(fault, target)),
  'stand-left-under': (fault) => {
    const aid = fault.finding.item ?? '';
    return supportsOf(fault, aid).flatMap((target) =>
      works(entry('unsupport', target, { with: asWritten(fault, aid) })),
    );
  },
  'chock-before-jack': ({ event }) => {
    const name = event === null ? '' : nameOf(event.subject);
    const other = name.includes('front') ? 'rear' : name.includes('rear') ? 'front' : null;
    return [...(other === null ? ['rear', 'front'] : [other])].map((end) => ({
      entries: [entry('chock', end)],
    }));
  },
  'part-hangs-on-line': (fault) => {
    const part = fault.fact('part');
    const tie = tieFor(fault, part);
    const tied = tie === null ? [] : works(entry('hold', part, { with: tie }));
    return [
      ...works(entry('disconnect', fault.finding.item ?? '')),
      ...(isLight(fault, part) ? tied : []),
      ...supported(fault, part),
      ...(isLight(fault, part) ? [] : tied),
    ];
  },
  'spring-loaded': (fault) => compressed(fault, fault.finding.item ?? ''),
  'compress-before-top-nut': (fault) => {
    const part = fault.thing?.type === 'part' ? fault.thing : null;
    if (part === null) return [];
    const springs = [...fault.model.things.values()].filter(
      (thing): thing is Part =>
        thing.type === 'part' &&
        thing.attributes.storesEnergy &&
        (thing.joins.includes(part) || part.joins.includes(thing)),
    );
    return [...springs, part].flatMap(({ name }) => compressed(fault, name));
  },
  'left-tight-over-travel': (fault) => {
    const part = fault.thing?.type === 'part' ? fault.thing : null;
    const bushed = [...(part?.joints.values() ?? [])].filter((joint) => joint.bushed);
    return bushed.length === 0 ? [] : works(entry('loosen', one(bushed.map(({ full }) => full))));
  },
  'line-stretched': (fault) => {
    const line = fault.thing?.type === 'line' ? fault.thing : null;
    if (line === null) return [];
    const paths = [...line.paths].sort((a, b) => (b[1] ?? 0) - (a[1] ?? 0)).map(([path]) => path);
    return [
      ...(line.heldBy === null ? [] : works(entry('unbolt', line.heldBy.name))),
      ...works(entry('unclip', line.name)),
      ...(paths.length > 1 ? works(entry('route', line.name, { path: paths[0]! })) : []),
      ...works(entry('disconnect', line.name)),
    ];
  },
  'retracting-cable-held': (fault) => {
    const pliers = aidFor(fault, 'hold', canDo('hold', null));
    return works(entry('hold', fault.finding.item ?? '', pliers === null ? {} : { with: pliers }));
  },
  'wheel-seated-before-ground': (fault) => {
    const wheel = fault.thing?.type === 'part' ? fault.thing : null;
    if (wheel === null) return [];
    const [narrow = {}] = narrowing(fault, wheel);
    const joints = [...wheel.joints.values()].map(({ full }) => full);
    const snug = joints.length === 0 ? [] : [entry('snug', one(joints), narrow)];
    return [{ entries: snug }, { entries: [entry('bolt-up', wheel.name, narrow), ...snug] }].filter(
      ({ entries }) => entries.length > 0,
    );
  },
  'joints-snug-before-ground': (fault) =>
    narrowing(fault, fault.thing).flatMap((narrow) => works(entry('snug', fault.finding.item ?? '', narrow))),
  'inflate-before-ground': (fault) => {
    const bag = fault.thing?.type === 'part' ? fault.thing : null;
    const to = bag?.pressure == null ? {} : { to: barOf(bag.pressure.low) };
    return works(entry('inflate', fault.finding.item ?? '', to));
  },
  'hub-nut-before-rolling': (fault) => works(entry('torque', fault.finding.item ?? '')),
  'recorded-first': (fault) => works(entry('record', fault.finding.item ?? '')),
};

/** Works that only move: nobody can write them anew here. */
const MOVES: Readonly<Record<string, (fault: Fault) => Work[]>> = {
  'torque-off-ride-height': comesDown,
  'not-at-ride-height': comesDown,
  'unsupport-carrying': (fault) =>
    works(
      entry('lower', fault.finding.item ?? ''),
      ...jointNames(fault.thing).map((name) => entry('start', name)),
    ),
  'pin-after-torque': ({ event }) =>
    event?.subject.type === 'piece' ? works(entry('torque', event.subject.joint.full)) : [],
  reach: (fault) => works(entry('unbolt', fault.fact('cover'))),
  'do-done': undoneBefore,
  'undo-undone': undoneBefore,
  'fit-discarded': undoneBefore,
};

/** What comes before, by the rules that the program holds: moved where the guide has it, else new. */
export function* neededBefore(fault: Fault): Generator<Plan | null> {
  const { rule } = fault.finding;
  for (const work of MOVES[rule]?.(fault) ?? []) yield* movesBefore(fault, work);
  const needs = NEEDS[rule]?.(fault) ?? [];
  const text = fault.rule?.repair?.text ?? null;
  yield* before(fault, text === null ? needs : needs.map((work) => ({ ...work, text })));
}

function supported(fault: Fault, name: string): Work[] {
  if (name === '') return [];
  const aids = [...takenAway(fault, name, mayStandUnder(fault, name)), jackFor(fault, name)];
  return [...new Set(aids)].map((aid) => ({ entries: [entry('support', name, { with: aid ?? undefined })] }));
}

function onStands(fault: Fault, target: string): Work[] {
  const stands = (one: Aid) => one.workUnder && carries(null)(one) && !one.raises;
  const aids = [...takenAway(fault, target, stands), aidFor(fault, 'support', stands)];
  return [...new Set(aids)].flatMap((aid) =>
    aid === null ? [] : works(entry('support', target, { with: aid })),
  );
}

function compressed(fault: Fault, name: string): Work[] {
  const thing = fault.model.things.get(name);
  // What stands on air is let go of its air: nothing clamps a bag together.
  if (thing?.kinds.includes('air-spring') === true) return works(entry('deflate', name));
  const aid = aidFor(fault, 'compress', canDo('compress', null));
  return name === '' ? [] : works(entry('compress', name, aid === null ? {} : { with: aid }));
}

/** Whether the guide itself has put a part on, or back, before what a finding stands at. */
function wasPutOn(fault: Fault, name: string): boolean {
  const before = eventsOn(fault, ['fit', 'bolt-up', 'unbolt', 'remove'], [name]).filter(
    ({ run, subject }) => run < (fault.event?.run ?? 0) && subject.type === 'part',
  );
  const last = before[before.length - 1];
  return last?.verb === 'fit' || last?.verb === 'bolt-up';
}

/** What the steps that led there raised. */
function raisedTargets({ simulation, raw }: Fault): string[] {
  const runs = raw.flatMap(({ causes }) => causes);
  const raised = runs.flatMap((run) => {
    const event = simulation.events[run];
    return event === undefined || (event.verb !== 'raise' && event.verb !== 'lower')
      ? []
      : [nameOf(event.subject)];
  });
  return [...new Set(raised)];
}

/** An axle, and the end of the vehicle that it is at. */
function withItsEnd(name: string): string[] {
  const end = name.includes('front') ? 'front' : name.includes('rear') ? 'rear' : null;
  return end === null ? [name] : [name, end];
}

/** What an aid was put under. */
function supportsOf({ simulation }: Fault, aid: string): string[] {
  const found = simulation.events.flatMap((event) =>
    event.operation.aids.some(({ name }) => name === aid) ||
    event.operation.onto.aids.some(({ name }) => name === aid)
      ? [nameOf(event.subject)]
      : [],
  );
  return [...new Set(found)];
}

/** The vehicle, or an axle, comes to its height. */
function comesDown({ simulation, event }: Fault): Work[] {
  const lowered = simulation.events.filter(
    ({ verb, run }) => (verb === 'lower' || verb === 'raise') && run > (event?.run ?? 0),
  );
  return [...new Set(lowered.map(({ verb, subject }) => `${verb} ${nameOf(subject)}`))].map((words) => {
    const [verb = '', name = ''] = words.split(' ');
    return { entries: [entry(verb, name)] };
  });
}

/** The operation on the same thing that must come between. */
function undoneBefore({ event }: Fault): Work[] {
  if (event === null) return [];
  const name = nameOf(event.subject);
  const opposite = OPPOSITE[event.verb] ?? [];
  return opposite.map((verb) => ({ entries: [entry(verb, name)] }));
}

const OPPOSITE: Readonly<Record<string, readonly string[]>> = {
  fit: ['unbolt', 'remove'],
  'bolt-up': ['unbolt', 'remove'],
  start: ['remove'],
  connect: ['disconnect'],
  seat: ['free'],
  remove: ['fit', 'bolt-up', 'start'],
  loosen: ['start', 'snug', 'torque'],
  unbolt: ['bolt-up', 'fit'],
  swing: ['fit'],
  disconnect: ['connect'],
  free: ['seat'],
};

const jointNames = (thing: Thing | null): string[] =>
  thing?.type === 'part' ? [...thing.joints.values()].map(({ full }) => full) : [];

const one = (names: readonly string[]): string | readonly string[] =>
  names.length === 1 ? names[0]! : names;
