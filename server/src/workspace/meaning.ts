import type { Span } from '../findings/finding';
import type { Aid, Hardware, Model, Target, Thing } from '../model/model';
import type { At } from './at';

/** No place: of a target that is meant, not written. */
const NOWHERE: Span = { start: 0, end: 0 };

/** What a written name stands for in a guide; null where the guide knows nothing of that name. */
export function targetNamed(model: Model, written: string): Target | null {
  const base = { span: NOWHERE, written };
  const dot = written.indexOf('.');
  const thing = model.things.get(dot < 0 ? written : written.slice(0, dot));
  if (thing === undefined) {
    const lines = [...model.things.values()].filter((one) => one.type === 'line' && one.circuit === written);
    if (lines.length > 0) return { ...base, type: 'line', lines: lines as never, end: null };
    return null;
  }
  if (dot < 0)
    return thing.type === 'part'
      ? { ...base, type: 'part', part: thing }
      : { ...base, type: 'line', lines: [thing], end: null };
  return within(thing, written.slice(dot + 1), base);
}

function within(thing: Thing, name: string, base: { span: Span; written: string }): Target | null {
  if (thing.type === 'line')
    return thing.ends.includes(name) ? { ...base, type: 'line', lines: [thing], end: name } : null;
  const [first = '', piece] = name.split('.');
  const joint = thing.joints.get(first);
  if (joint !== undefined)
    return piece === undefined ? { ...base, type: 'joint', joint } : { ...base, type: 'piece', joint, piece };
  const end = thing.ends.get(name);
  if (end !== undefined) return { ...base, type: 'end', end };
  const hole = thing.holes.get(name);
  if (hole !== undefined) return { ...base, type: 'hole', hole };
  const face = thing.faces.get(name);
  return face === undefined ? null : { ...base, type: 'face', face };
}

/** The target of a guide's operation, or of what it is given and leaves, at a place. */
export function targetAt(model: Model, at: At): Target | null {
  const inside = (target: Target) => target.span.start <= at.offset && at.offset <= target.span.end;
  for (const step of model.steps) {
    if (step.path !== at.step) continue;
    for (const operation of step.operations) {
      if (operation.path !== at.operation) continue;
      const found = [
        ...operation.targets,
        ...operation.toTargets,
        ...operation.withTargets,
        ...(operation.onto.target === null ? [] : [operation.onto.target]),
      ].find(inside);
      if (found !== undefined) return found;
    }
  }
  return at.written === null ? null : targetNamed(model, at.written);
}

/** The aid that a word names, singular or plural. */
export function aidNamed(model: Model, written: string): Aid | null {
  return (
    model.aids.get(written) ??
    model.aids.get(`${written}s`) ??
    model.aids.get(written.replace(/s$/, '')) ??
    null
  );
}

export const hardwareNamed = (model: Model, written: string): Hardware | null =>
  model.hardware.find(({ name }) => name === written) ?? null;
