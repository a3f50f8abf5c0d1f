/** Debts of holds, switches, fluids and metal (schemas/semantics.md §6). */

import type { Instance } from '../../model/instances';
import { normalValue } from '../../simulate/effects-rest';
import { ALONE, type Event, nameOf, type Subject } from '../../simulate/event';
import { isOn, named, part as partItems, work } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { flagged, owedAtEnd, since, universe } from './owed';

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
  actedOn(sim, ['hold']).flatMap(({ subject, name, at }) => {
    // What is scrapped took its wire with it.
    const set =
      subject.type === 'part'
        ? sim.state.where(
            partItems.state(subject.part, at),
            sim.model.universe,
            (state) => state !== 'discarded',
          )
        : sim.model.universe;
    return flagged(sim, 'left-held', name, at, named.holdOwed(name, at), set, { state: 'held' });
  }),
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

/** Holes of the parts that still count, in a state that asks for the drill. */
const holeDebt = (rule: string, wanted: string) =>
  owedAtEnd(rule, (sim) =>
    sim.corners.everyPart.flatMap((part) =>
      part.instances.flatMap((at) =>
        [...part.holes.values()].flatMap((hole) => {
          // A place that was marked and has no size may be a mark of another sort.
          if (wanted === 'marked' && hole.size === null) return [];
          const there = sim.state.where(
            partItems.state(part, at),
            universe(sim, part.presence),
            (value) => value !== 'discarded',
          );
          const state = work.hole(hole, at);
          return since(sim, rule, hole.full, at.label, state, there, (value) => value === wanted);
        }),
      ),
    ),
  );

/** A hole that was begun is drilled to its size. */
export const leftPilot = holeDebt('left-pilot', 'pilot');
/** A hole that was marked out is drilled. */
export const leftMarked = holeDebt('left-marked', 'marked');
