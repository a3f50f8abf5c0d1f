/** What may be done after delivery, handed over; and what the guide says that it leaves. */

import type { Entry } from '../../edit/steps';
import { inPlace } from './figures';
import type { Fault, Plan } from './repair';
import { nameInWords } from './words';

/** A `later` rule that a check meets: handed over on the list of what is due. */
export function* handedOver(fault: Fault): Generator<Plan | null> {
  const { rule, finding, guide } = fault;
  if (rule?.later == null || !rule.later.verb.some((verb) => verb === 'check' || verb === 'measure')) return;
  const { of, qualifier, before } = rule.later;
  if (before !== null || of === 'axle' || of === 'joints') return;
  const words = typeof of === 'object' && 'words' in of ? of.words[0] : undefined;
  const name = words ?? (of === 'same' ? finding.item : undefined);
  if (name === undefined) return;
  const due = rule.repair?.after ?? null;
  const after = qualifier.has('after');
  if (after && due === null) return;
  const duty: Entry = after ? { check: name, after: due } : { check: name, before: 'road' };
  const when = after ? `after ${due}` : 'before it goes on the road';
  const edits = guide.addDuty(duty);
  const title = `Hand over a check of ${nameInWords(name)} ${when} (owes)`;
  yield edits === null ? null : { kind: 'insert', title, edits, drafts: 0 };
}

/** `leaves-not-so`: what is not so is not said. */
export function* notLeft({ finding, guide }: Fault): Generator<Plan | null> {
  const name = finding.item ?? '';
  yield inPlace(`Take ${name} out of what the guide leaves`, guide.removeEntry('leaves', name));
}
