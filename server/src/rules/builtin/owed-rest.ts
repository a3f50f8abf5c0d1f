/** Debts of support, holds, switches, fluids and metal (schemas/semantics.md §6). */

import type { Instance } from '../../model/instances';
import { listAids, UNNAMED_JACK } from '../../simulate/aids';
import { normalValue } from '../../simulate/effects-rest';
import { ALONE, type Event, nameOf, type Subject } from '../../simulate/event';
import { corner as cornerItems, isOn, named, part as partItems, work } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { axleSpot, bodySpot, partSpot } from '../../simulate/spots';
import type { Diagram } from '../../variants/diagram';
import { type Debt, flagged, owedAtEnd, since, universe } from './owed';

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
      );
    const onWheels = sim.state.diagrams.minus(sim.model.universe, up);
    const onLift = (value: unknown) => listAids(value).some((name) => sim.model.aids.get(name)?.takesWheels);
    debts.push(
      ...since(sim, 'left-raised', 'vehicle', '', bodySpot(corner).aids, onWheels, onLift, {
        state: 'raised',
      }),
    );
  }
  return debts;
});

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
  for (const corner of sim.corners.all) {
    const { aids } = axleSpot(corner);
    for (const { value, set } of state.valuesWithin(aids, standing))
      for (const aid of listAids(value).filter((name) => name !== UNNAMED_JACK.name))
        for (const debt of since(
          sim,
          'left-supported',
          corner.group.name,
          '',
          aids,
          set,
          (now) => listAids(now).includes(aid),
          { aid, state: 'supported' },
        ))
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

/** What events of some verbs acted on, each once. */
function actedOn(
  sim: Simulation,
  verbs: readonly string[],
): { subject: Subject; name: string; at: Instance }[] {
  const found = new Map<string, { subject: Subject; name: string; at: Instance }>();
  for (const { verb, subject, at } of sim.events as readonly Event[]) {
    if (!verbs.includes(verb)) continue;
    const name = nameOf(subject);
    found.set(`${name}${at.key}`, { subject, name, at });
  }
  // What the guide before left so is owed too.
  for (const { target } of sim.model.follows?.entries ?? [])
    if (target.type === 'built-in')
      found.set(target.name, {
        subject: { type: 'built-in', name: target.name },
        name: target.name,
        at: ALONE,
      });
  return [...found.values()];
}

/** A temporary clamp, wire or bung comes off again. */
export const leftHeld = owedAtEnd('left-held', (sim) =>
  actedOn(sim, ['hold']).flatMap(({ name, at }) =>
    flagged(sim, 'left-held', name, at, named.holdOwed(name, at), sim.model.universe, { state: 'held' }),
  ),
);

/** A compressor comes off its spring. */
export const leftCompressed = owedAtEnd('left-compressed', (sim) =>
  sim.corners.everyPart.flatMap((part) =>
    part.instances.flatMap((at) => {
      const set = sim.state.where(
        partItems.compressed(part, at),
        universe(sim, part.presence),
        (value) => value === true,
      );
      return set === 0
        ? []
        : flagged(sim, 'left-compressed', part.name, at, partItems.compressorOwed(part, at), set, {
            state: 'compressed',
          });
    }),
  ),
);

/** What was made safe is live again. */
export const leftIsolated = owedAtEnd('left-isolated', (sim) =>
  actedOn(sim, ['isolate']).flatMap(({ name, at }) =>
    flagged(sim, 'left-isolated', name, at, named.safeOwed(name), sim.model.universe, { state: 'safe' }),
  ),
);

/** What was switched for the job is switched back. */
export const leftSwitched = owedAtEnd('left-switched', (sim) =>
  actedOn(sim, ['switch']).flatMap(({ name, at }) => {
    const value = named.switched(name, normalValue(sim, name));
    return sim.state
      .valuesWithin(value, sim.model.universe)
      .flatMap(({ value: now, set }) =>
        flagged(sim, 'left-switched', name, at, named.switchOwed(name), set, { state: String(now) }),
      );
  }),
);

/** What was drained is filled. */
export const leftDrained = owedAtEnd('left-drained', (sim) =>
  actedOn(sim, ['drain']).flatMap(({ name, at }) =>
    flagged(sim, 'left-drained', name, at, named.drainOwed(name, at), sim.model.universe, {
      state: 'drained',
    }),
  ),
);

/** A torsion bar that was unloaded is set again. */
export const leftUnloaded = owedAtEnd('left-unloaded', (sim) =>
  sim.corners.everyPart.flatMap((part) =>
    part.instances.flatMap((at) => {
      if (!part.attributes.adjusted) return [];
      const on = sim.state.where(partItems.state(part, at), universe(sim, part.presence), isOn);
      return since(
        sim,
        'left-unloaded',
        part.name,
        at.label,
        partItems.unloaded(part, at),
        on,
        (value) => value === true,
      );
    }),
  ),
);

/** Cut, drilled or welded metal is deburred and protected. */
export const leftUnprotected = owedAtEnd('left-unprotected', (sim) =>
  sim.corners.everyPart.flatMap((part) =>
    part.instances.flatMap((at) =>
      [part, ...part.holes.values(), ...part.faces.values()].flatMap((edge) => {
        const there = sim.state.where(
          partItems.state(part, at),
          universe(sim, part.presence),
          (value) => value !== 'discarded',
        );
        const name = edge.type === 'part' ? edge.name : edge.full;
        return flagged(sim, 'left-unprotected', name, at, work.edgeOwed(edge, at), there);
      }),
    ),
  ),
);

/** A hole that was begun is drilled to its size. */
export const leftPilot = owedAtEnd('left-pilot', (sim) =>
  sim.corners.everyPart.flatMap((part) =>
    part.instances.flatMap((at) =>
      [...part.holes.values()].flatMap((hole) => {
        const there = sim.state.where(
          partItems.state(part, at),
          universe(sim, part.presence),
          (value) => value !== 'discarded',
        );
        return since(
          sim,
          'left-pilot',
          hole.full,
          at.label,
          work.hole(hole, at),
          there,
          (value) => value === 'pilot',
        );
      }),
    ),
  ),
);
