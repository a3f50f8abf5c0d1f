import type { Hardware } from '../../model/model';
import type { Event } from '../../simulate/event';
import type { Simulation } from '../../simulate/simulation';
import type { Diagram } from '../../variants/diagram';
import type { Debt } from './owed';

/**
 * Hardware of the kit that no operation takes. Only what is for joints of the vehicle that no kit part takes over is sure
 * to be named by a `new:`; and a guide that follows another or leaves work to one may share its box with that.
 */
export function hardwareUnused(sim: Simulation): Debt[] {
  const { model, state } = sim;
  if (model.follows !== null || model.leaves.length > 0) return [];
  return model.hardware.flatMap((item): Debt[] => {
    if (item.quantity === 0 || item.serves.length === 0 || !item.serves.every(isPlain(sim))) return [];
    let used: Diagram = 0;
    for (const event of sim.events) if (takes(item, event)) used = state.diagrams.or(used, event.guard);
    // What was told of the joint, or of its part, says enough.
    const names = new Set(item.serves.flatMap(({ joint }) => [joint.full, joint.part.name]));
    for (const { item: of, set } of sim.findings) if (names.has(of)) used = state.diagrams.or(used, set);
    const there = item.serves.reduce(
      (set, { joint }) => state.diagrams.and(set, state.diagrams.and(joint.presence, joint.part.presence)),
      model.universe,
    );
    const set = state.diagrams.minus(there, used);
    const facts = { state: 'boxed' };
    return [
      { rule: 'left-unused', item: item.name, side: '', since: -1, set, facts, place: model.kitPlace },
    ].filter((debt) => debt.set !== 0);
  });
}

const isPlain =
  (sim: Simulation) =>
  ({ joint: { part } }: Hardware['serves'][number]): boolean =>
    part.origin === 'vehicle' && sim.lookups.replacing(part).length === 0;

/** Whether an event names a piece that the hardware is. */
function takes({ serves }: Hardware, { verb, subject, operation }: Event): boolean {
  const news = operation.newPieces;
  return serves.some(({ joint, piece }) => {
    if (verb === 'renew')
      return (
        (subject.type === 'joint' && subject.joint === joint) ||
        (subject.type === 'piece' && subject.joint === joint && (piece === null || piece === subject.piece))
      );
    if (!news.some((name) => piece === null || piece === name)) return false;
    return subject.type === 'joint'
      ? subject.joint === joint
      : subject.type === 'part' && subject.part === joint.part;
  });
}
