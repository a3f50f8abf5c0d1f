/** Which aid a fix writes, and aids that cannot do what is asked of them changed for ones that can. */

import type { Aid, Model } from '../../model/model';
import { aidNamed } from '../../simulate/aids';
import { partOf } from '../../simulate/event';
import type { Fault, Plan } from './repair';

/**
 * The word for an aid that can do something: as the guide names one for the same verb, else as the rule does, else the
 * first of the packs. Null where there is none.
 */
export function aidFor(fault: Fault, verb: string, can: (aid: Aid) => boolean): string | null {
  const { model, rule } = fault;
  for (const step of model.steps)
    for (const operation of step.operations) {
      if (operation.verb !== verb || !operation.aids.every((aid) => aid.known && can(aid))) continue;
      const said = operation.qualifiers.get('with');
      if (typeof said === 'string') return said;
    }
  const wanted = rule?.repair?.with ?? null;
  if (wanted !== null && can(aidOf(model, wanted))) return wanted;
  return [...model.aids.values()].find(can)?.name ?? null;
}

/** Aids that the guide takes away from under something: it means to have put them there. */
export function takenAway({ model }: Fault, target: string, can: (aid: Aid) => boolean): string[] {
  return model.steps.flatMap(({ operations }) =>
    operations.flatMap(({ verb, targets, aids, qualifiers }) => {
      const said = qualifiers.get('with');
      const meant = verb === 'unsupport' && targets.some(({ written }) => written === target);
      return meant && typeof said === 'string' && aids.every((aid) => aid.known && can(aid)) ? [said] : [];
    }),
  );
}

/** An aid by a word for it, in singular or plural; one that nobody knows can do nothing that is asked here. */
function aidOf(model: Model, word: string): Aid {
  const known = model.aids.get(word) ?? (word.endsWith('s') ? model.aids.get(word.slice(0, -1)) : undefined);
  return (
    known ?? { ...aidNamed(model, word), raises: false, carries: false, holds: false, compresses: false }
  );
}

/** Whether an aid carries so much. */
export const carries = (mass: number | null) => (aid: Aid) =>
  aid.carries && !aid.takesWheels && (mass === null || aid.rating === null || aid.rating >= mass);

/** `aid-cannot` and `aid-overloaded`: another aid, of those that can. */
export function* otherAids(fault: Fault): Generator<Plan | null> {
  const { event, path, operation } = fault;
  if (event === null || path === null || operation === null) return;
  const key = event.verb === 'lower' ? 'onto' : 'with';
  const mass = partOf(event.subject)?.mass ?? null;
  const can = (aid: Aid): boolean => {
    if (mass !== null && aid.rating !== null && aid.rating < mass) return false;
    if (event.verb === 'raise') return aid.raises && !aid.takesWheels;
    if (event.verb === 'compress') return aid.compresses;
    if (event.verb === 'hold') return aid.holds || aid.carries;
    return aid.carries && !aid.takesWheels;
  };
  const first = aidFor(fault, event.verb, can);
  const others = [...fault.model.aids.values()].filter(can).map(({ name }) => name);
  for (const name of new Set([...(first === null ? [] : [first]), ...others].slice(0, 3))) {
    const edits = fault.guide.setKey(path, key, name);
    const title = `Use ${name.replaceAll('-', ' ')} instead`;
    yield edits === null ? null : { kind: 'in place', title, edits, drafts: 0 };
  }
}

/** An aid as the guide writes it. */
export function asWritten(fault: Fault, name: string): string {
  for (const step of fault.model.steps)
    for (const { aids, qualifiers } of step.operations) {
      const said = qualifiers.get('with');
      if (aids.length === 1 && aids[0]!.name === name && typeof said === 'string') return said;
    }
  return name;
}
