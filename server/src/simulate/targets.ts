/** What an operation's targets mean: things, instance by instance, in running order (schemas/semantics.md §2). */

import type { Instance } from '../model/instances';
import type { BoundOperation, Joint, Part, Side, Target, Thing } from '../model/model';
import type { Diagram, Diagrams } from '../variants/diagram';
import { ALONE, type Subject } from './event';

/** Verbs that act on joints; a part named with them means all its joints. */
const JOINT_VERBS = new Set(['loosen', 'start', 'snug', 'torque']);

/** The instances an operation runs on in one pass: left before right, places in declared order. */
export function chosenInstances(thing: Thing, operation: BoundOperation, pass: readonly Side[]): Instance[] {
  if (!operation.sides.some((side) => pass.includes(side))) return [];
  const stations = thing.places === null ? undefined : operation.stations.get(thing.places.key);
  const there = thing.instances.filter(
    (at) =>
      (at.side === '' || (operation.sides.includes(at.side) && pass.includes(at.side))) &&
      (stations === undefined || stations.includes(at.place)),
  );
  return (['', 'left', 'right'] as const).flatMap((side) => there.filter((at) => at.side === side));
}

/** For verbs of joints: the joints named, a part standing for all of its own; null for other verbs. */
export function jointTargets(operation: BoundOperation): { joint: Joint; target: Target }[] | null {
  if (!JOINT_VERBS.has(operation.verb)) return null;
  return operation.targets.flatMap((target): { joint: Joint; target: Target }[] => {
    if (target.type === 'joint' || target.type === 'piece') return [{ joint: target.joint, target }];
    if (target.type === 'part') return [...target.part.joints.values()].map((joint) => ({ joint, target }));
    return [];
  });
}

/** What a target means, instance by instance. */
export function subjectsOf(
  target: Target,
  operation: BoundOperation,
  pass: readonly Side[],
): [Subject, Instance][] {
  if (!operation.sides.some((side) => pass.includes(side))) return [];
  const each = (part: Part, subject: Subject): [Subject, Instance][] =>
    chosenInstances(part, operation, pass).map((at) => [subject, at]);
  switch (target.type) {
    case 'part':
      if (operation.verb === 'free' || operation.verb === 'seat')
        return [...target.part.ends.values()].flatMap((end) => each(target.part, { type: 'end', end }));
      return each(target.part, { type: 'part', part: target.part });
    case 'joint':
      return each(target.joint.part, { type: 'joint', joint: target.joint });
    case 'piece':
      return each(target.joint.part, { type: 'piece', joint: target.joint, piece: target.piece });
    case 'end':
      return each(target.end.part, { type: 'end', end: target.end });
    case 'hole':
      return each(target.hole.part, { type: 'hole', hole: target.hole });
    case 'face':
      return each(target.face.part, { type: 'face', face: target.face });
    case 'line':
      return target.lines.flatMap((line) =>
        chosenInstances(line, operation, pass).map((at): [Subject, Instance] => [
          { type: 'line', line, end: target.end },
          at,
        ]),
      );
    case 'built-in':
      return [[{ type: 'built-in', name: target.name }, ALONE]];
    case 'words':
      return [[{ type: 'words', text: target.text }, ALONE]];
  }
}

/** The variants in which what an event acts on exists. */
export function presenceOf(diagrams: Diagrams, subject: Subject): Diagram {
  const ofJoint = (joint: Joint) => diagrams.and(joint.part.presence, joint.presence);
  switch (subject.type) {
    case 'part':
      return subject.part.presence;
    case 'joint':
    case 'piece':
      return ofJoint(subject.joint);
    case 'end':
      return subject.end.part.presence;
    case 'hole':
      return subject.hole.part.presence;
    case 'face':
      return subject.face.part.presence;
    case 'line':
      return subject.line.presence;
    default:
      return 1;
  }
}
