/** Debts of what carries: the vehicle comes down, and what stood beneath comes out (schemas/semantics.md §6). */

import { listAids, UNNAMED_JACK } from '../../simulate/aids';
import { nameOf } from '../../simulate/event';
import { BEFORE } from '../../simulate/given';
import { corner as cornerItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { axleSpot, bodySpot, partSpot } from '../../simulate/spots';
import type { Item, Value } from '../../simulate/state';
import type { Diagram } from '../../variants/diagram';
import { type Debt, owedAtEnd, since, universe } from './owed';

/** The vehicle ends on its wheels, on the ground. */
export const leftRaised = owedAtEnd('left-raised', (sim) => {
  const debts: Debt[] = [];
  for (const corner of sim.corners.all) {
    const up = sim.state.where(cornerItems.carry(corner), sim.model.universe, (value) => value !== 'wheel');
    // Where a torque in the air told already that it is not down, that is the one finding.
    const lifted = sim.state.where(cornerItems.assumedRide(corner), up, (value) => value !== true);
    const carry = cornerItems.carry(corner);
    for (const { value, set } of sim.state.valuesWithin(carry, lifted))
      debts.push(
        ...since(sim, 'left-raised', 'vehicle', '', carry, set, (now) => now === value, { state: 'raised' }),
        ...sinceGiven(sim, carry, set, (now) => now === value),
      );
    const onWheels = sim.state.diagrams.minus(sim.model.universe, up);
    const onLift = (value: unknown) => listAids(value).some((name) => sim.model.aids.get(name)?.takesWheels);
    debts.push(
      ...since(sim, 'left-raised', 'vehicle', '', bodySpot(corner).aids, onWheels, onLift, {
        state: 'raised',
      }),
      ...sinceGiven(sim, bodySpot(corner).aids, onWheels, onLift),
    );
  }
  return debts;
});

/** A vehicle that is given raised comes down too, once the guide has worked on it. */
function sinceGiven(sim: Simulation, item: Item, within: Diagram, owes: (value: Value) => boolean): Debt[] {
  const isGiven = (run: number) => run === BEFORE || sim.events[run]?.step.path === '0';
  const { diagrams } = sim.state;
  const { given: entries, givenOperations } = sim.model;
  const place =
    entries.find(({ state }) => state === 'raised')?.place ??
    givenOperations.find(({ verb }) => verb === 'raise')?.place;
  const given = sim.state.madeBy(item, within, owes).filter(({ run }) => isGiven(run));
  if (given.length === 0 || place === undefined) return [];
  const touched = sim.events.reduce(
    (set: Diagram, event) =>
      event.step.path === '0' || event.subject.type === 'words' ? set : diagrams.or(set, event.guard),
    0,
  );
  return given.map(({ set }) => ({
    rule: 'left-raised',
    item: 'vehicle',
    side: '',
    since: -1,
    set: diagrams.and(set, touched),
    facts: { state: 'raised' },
    place,
  }));
}

/** The variants in which some corner is not on the ground: what stands beneath is not told apart then. */
function upSomewhere(sim: Simulation): Diagram {
  const { state } = sim;
  const onLift = (value: unknown) => listAids(value).some((name) => sim.model.aids.get(name)?.takesWheels);
  return sim.corners.all.reduce((set: Diagram, corner) => {
    const up = state.where(cornerItems.carry(corner), sim.model.universe, (value) => value !== 'wheel');
    const lifted = state.where(bodySpot(corner).aids, sim.model.universe, onLift);
    return state.diagrams.or(set, state.diagrams.or(up, lifted));
  }, 0);
}

/** A jack or stand comes out from under what it held. */
export const leftSupported = owedAtEnd('left-supported', (sim) => {
  const debts: Debt[] = [];
  const { state } = sim;
  const standing = state.diagrams.minus(sim.model.universe, upSomewhere(sim));
  for (const corner of sim.corners.all)
    for (const { aids } of [axleSpot(corner), bodySpot(corner)])
      for (const { value, set } of state.valuesWithin(aids, standing))
        for (const aid of listAids(value).filter((name) => name !== UNNAMED_JACK.name)) {
          const stands = (now: Value) => listAids(now).includes(aid);
          const facts = { aid, state: 'supported' };
          for (const debt of since(sim, 'left-supported', corner.group.name, '', aids, set, stands, facts))
            debts.push({ ...debt, item: targetOf(sim, debt.since, corner.group.name) });
        }
  for (const part of sim.corners.everyPart)
    for (const at of part.instances) {
      if (part.attributes.axle || part.attributes.wheel) continue;
      const { aids } = partSpot(part, at);
      const held = state.where(aids, universe(sim, part.presence), (value) => value !== '');
      if (held === 0) continue;
      for (const { value, set } of state.valuesWithin(aids, held))
        for (const aid of listAids(value).filter((name) => name !== UNNAMED_JACK.name))
          debts.push(
            ...since(
              sim,
              'left-supported',
              part.name,
              at.label,
              aids,
              set,
              (now) => listAids(now).includes(aid),
              { aid, state: 'supported' },
            ),
          );
    }
  return debts;
});

const targetOf = (sim: Simulation, run: number, otherwise: string) => {
  const event = sim.events[run];
  return event === undefined ? otherwise : nameOf(event.subject);
};
