/** One thing done to one instance: what rules watch. An operation makes one event or several. */

import type { Instance } from '../model/instances';
import type {
  BoundOperation,
  BoundStep,
  End,
  Face,
  Hole,
  Joint,
  Line,
  Part,
  Side,
  Target,
  Thing,
} from '../model/model';
import { partOf } from '../model/target';
import type { Diagram } from '../variants/diagram';

export type Subject =
  | { readonly type: 'part'; readonly part: Part }
  | { readonly type: 'joint'; readonly joint: Joint }
  | { readonly type: 'piece'; readonly joint: Joint; readonly piece: string }
  | { readonly type: 'end'; readonly end: End }
  | { readonly type: 'hole'; readonly hole: Hole }
  | { readonly type: 'face'; readonly face: Face }
  | { readonly type: 'line'; readonly line: Line; readonly end: string | null }
  | { readonly type: 'built-in'; readonly name: string }
  | { readonly type: 'words'; readonly text: string };

export interface Event {
  /** Number of this run: runs are counted through the whole guide. */
  readonly run: number;
  /** The verb of this event; within an `unbolt` it is `remove` for each joint. */
  readonly verb: string;
  readonly subject: Subject;
  readonly at: Instance;
  readonly operation: BoundOperation;
  readonly step: BoundStep;
  readonly target: Target;
  /** `unbolt` or `bolt-up`, where this event is a part of that. */
  readonly within: string | null;
  /** Sides of this pass. */
  readonly pass: readonly Side[];
  /** Variants in which it is done: the operation's, and those in which the subject exists. */
  readonly guard: Diagram;
}

/** An instance for what has no sides. */
export const ALONE: Instance = { side: '', place: '', placeKey: '', key: '', label: '' };

/** How a guide names the subject. */
export function nameOf(subject: Subject): string {
  switch (subject.type) {
    case 'part':
      return subject.part.name;
    case 'joint':
      return subject.joint.full;
    case 'piece':
      return `${subject.joint.full}.${subject.piece}`;
    case 'end':
      return subject.end.full;
    case 'hole':
      return subject.hole.full;
    case 'face':
      return subject.face.full;
    case 'line':
      return subject.end === null ? subject.line.name : `${subject.line.name}.${subject.end}`;
    case 'built-in':
      return subject.name;
    case 'words':
      return subject.text;
  }
}

/** The part or line that the subject is or belongs to. */
export function thingOf(subject: Subject): Thing | null {
  return subject.type === 'line' ? subject.line : partOf(subject);
}
