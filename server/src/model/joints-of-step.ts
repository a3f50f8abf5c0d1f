import type { BoundOperation, BoundStep, Joint } from './model';

const TURNS: ReadonlySet<string> = new Set([
  'loosen',
  'remove',
  'unbolt',
  'bolt-up',
  'start',
  'snug',
  'torque',
]);

/** The joints that a step turns, each once, with the first operation that does. */
export function jointsOfStep({
  operations,
}: BoundStep): { readonly joint: Joint; readonly operation: BoundOperation }[] {
  const found = new Map<Joint, BoundOperation>();
  for (const operation of operations) {
    if (!TURNS.has(operation.verb)) continue;
    for (const target of operation.targets) {
      const joints =
        target.type === 'joint' ? [target.joint] : target.type === 'part' ? target.part.joints.values() : [];
      for (const joint of joints) if (!found.has(joint)) found.set(joint, operation);
    }
  }
  return [...found].map(([joint, operation]) => ({ joint, operation }));
}
