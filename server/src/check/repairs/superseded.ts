/** What a guide fits in the place of something else: nobody puts the old one on again. */

import type { Entry } from '../../edit/steps';
import type { Thing } from '../../model/model';
import { thingOf } from '../../simulate/event';
import { type Fault, thingNamed } from './repair';

const PUT_ON: ReadonlySet<string> = new Set(['fit', 'bolt-up', 'route', 'connect']);
/** Verbs that make sense only of what is on, or goes on. */
const OF_WHAT_IS_ON: ReadonlySet<string> = new Set([
  ...PUT_ON,
  ...['start', 'snug', 'torque', 'clip', 'seat', 'check', 'bleed', 'fill', 'inflate'],
]);

/** What replaces it, by the files. */
const replacing = ({ model }: Fault, thing: Thing): ReadonlySet<Thing> =>
  new Set([...model.things.values()].filter(({ replaces }) => replaces.includes(thing)));

/** Whether the guide puts something on that replaces it, on a side and in a variant of the finding. */
export function isSuperseded(fault: Fault, thing: Thing): boolean {
  const { simulation, raw } = fault;
  const fresh = replacing(fault, thing);
  if (fresh.size === 0) return false;
  const { diagrams } = simulation.state;
  return simulation.events.some(({ verb, subject, at, guard }) => {
    const put = thingOf(subject);
    if (put === null || !fresh.has(put) || !PUT_ON.has(verb)) return false;
    return raw.some(
      ({ set, side }) =>
        (side === '' || at.label === '' || side === at.label) && diagrams.intersects(set, guard),
    );
  });
}

/** Whether an operation would be done to what something else has taken the place of, or would scrap what nothing replaces. */
export function isForNothing(fault: Fault, entry: Entry): boolean {
  const [verb = '', target] = Object.entries(entry)[0] ?? [];
  return (Array.isArray(target) ? target : [target]).some((name) => {
    const thing = thingNamed(fault.model, String(name));
    if (thing === null) return false;
    if (OF_WHAT_IS_ON.has(verb)) return isSuperseded(fault, thing);
    return verb === 'discard' && thing.origin !== 'implied' && replacing(fault, thing).size === 0;
  });
}
