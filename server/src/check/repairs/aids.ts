/** Which aid a fix writes, and aids that cannot do what is asked of them changed for ones that can. */

import type { Aid, Model, Part } from '../../model/model';
import { partOf } from '../../model/target';
import { aidNamed } from '../../simulate/aids';
import type { Fault, Plan } from './repair';

/** Verbs whose aid belongs to the work, not to the shop: a bung, locking pliers, a spring compressor. */
const BY_THE_WORK: ReadonlySet<string> = new Set(['hold', 'compress']);

/**
 * The word for an aid that can do something: as the guide names one for the same verb or as the rule does, whichever
 * knows better, else the likeliest of the packs. Null where there is none.
 */
export function aidFor(fault: Fault, verb: string, can: (aid: Aid) => boolean): string | null {
  const { model, rule } = fault;
  const wanted = rule?.repair?.with ?? null;
  const ofRule = wanted !== null && can(aidOf(model, wanted)) ? wanted : null;
  if (ofRule !== null && BY_THE_WORK.has(verb)) return ofRule;
  for (const step of model.steps)
    for (const operation of step.operations) {
      if (operation.verb !== verb || !operation.aids.every((aid) => aid.known && can(aid))) continue;
      const said = operation.qualifiers.get('with');
      if (typeof said === 'string') return said;
    }
  return ofRule ?? likeliest(fault, can)[0] ?? null;
}

/** Aids of the packs that can, those first whose name has a word of the thing: a spring compressor for a coil spring. */
function likeliest({ model, thing }: Fault, can: (aid: Aid) => boolean): string[] {
  const words = new Set([thing?.name ?? '', ...(thing?.kinds ?? [])].flatMap((name) => name.split('-')));
  const names = [...model.aids.values()].filter(can).map(({ name }) => name);
  const meant = (name: string) => name.split('-').some((word) => words.has(word));
  return [...names.filter(meant), ...names.filter((name) => !meant(name))];
}

/** Whether an aid can do what a verb asks for, with a load of so many kg. */
export function canDo(verb: string, mass: number | null): (aid: Aid) => boolean {
  if (verb === 'raise') return (aid) => aid.raises && !aid.takesWheels && bears(aid, mass);
  if (verb === 'compress') return ({ compresses }) => compresses;
  // What carries could hold as well, and what squeezes too: nobody means it.
  if (verb === 'hold') return (aid) => aid.holds && !aid.carries && !aid.compresses && bears(aid, mass);
  return carries(mass);
}

const bears = ({ rating }: Aid, mass: number | null): boolean =>
  mass === null || rating === null || rating >= mass;

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
  aid.carries && !aid.takesWheels && bears(aid, mass);

/** Whether it is a vehicle that an aid lifts, for people to work beneath. */
export const isLift = (aid: Aid): boolean => aid.raises && aid.workUnder;

/** Whether an aid follows a part up and down: jacks do, and hoists, and what is made for just such a part. */
export function isMadeFor(part: Part, aid: Aid): boolean {
  if (!carries(part.mass)(aid) || !aid.lowers || isLift(aid)) return false;
  const words = aid.name.split('-');
  const own = new Set([part.name, ...part.kinds].flatMap((name) => name.split('-')));
  return aid.jack || words.length === 1 || words.some((word) => own.has(word));
}

/** `aid-cannot` and `aid-overloaded`: another aid, of those that can. */
export function* otherAids(fault: Fault): Generator<Plan | null> {
  const { event, path, operation } = fault;
  if (event === null || path === null || operation === null) return;
  const key = event.verb === 'lower' ? 'onto' : 'with';
  const part = partOf(event.subject);
  const borne = part !== null && event.verb === 'support';
  const can = borne ? (aid: Aid) => isMadeFor(part, aid) : canDo(event.verb, part?.mass ?? null);
  const first = aidFor(fault, event.verb, can);
  const others = likeliest(fault, can);
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
