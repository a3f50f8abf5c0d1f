/** Debts of the box and of lines (schemas/semantics.md §6). */

import { type Instance, matching } from '../../model/instances';
import type { Line, Thing } from '../../model/model';
import { endsOf } from '../../simulate/effects-rest';
import { isOn, line as lineItems, part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Diagram } from '../../variants/diagram';
import { hardwareUnused } from './hardware-unused';
import { type Debt, flagged, owedAtEnd, universe } from './owed';

/** What is in the box is used, unless it is spare. */
export const leftUnused = owedAtEnd('left-unused', (sim) => {
  const debts: Debt[] = [];
  for (const thing of sim.model.things.values()) {
    if (thing.origin !== 'kit' || thing.spare || thing.quantity === 0) continue;
    for (const at of thing.instances) {
      const state = thing.type === 'part' ? partItems.state(thing, at) : lineItems.state(thing, at);
      // Of a sided part sold singly, the side that the kit has no piece for is not missed.
      const there = universe(sim, thing.presence);
      const lacking =
        thing.type === 'line'
          ? there
          : sim.state.where(partItems.taken(thing), there, (taken) => Number(taken) < thing.quantity);
      const set = sim.state.where(state, lacking, (value) => value === 'boxed' || value === 'offered');
      const missing = sim.state.diagrams.minus(set, saidMissing(sim, thing, at));
      for (const { value, set: unused } of sim.state.valuesWithin(state, missing))
        debts.push({
          rule: 'left-unused',
          item: thing.name,
          side: at.label,
          since: -1,
          set: unused,
          facts: { state: String(value) },
          place: sim.model.kitPlace,
        });
    }
  }
  return [...debts, ...hardwareUnused(sim)];
});

/** The variants in which it was told already that what this thing replaces is gone with nothing new, or went back. */
function saidMissing(sim: Simulation, thing: Thing, at: Instance): Diagram {
  const old = new Set(thing.replaces.map(({ name }) => name));
  const singly = thing.quantity < thing.instances.length;
  return sim.findings
    .filter(({ rule }) => rule === 'left-without' || rule === 'fit-discarded')
    .filter(
      ({ item, side }) => old.has(item) && (singly || side === '' || at.label === '' || side === at.label),
    )
    .reduce((set: Diagram, finding) => sim.state.diagrams.or(set, finding.set), 0);
}

/** Lines that are on the vehicle, and both of whose parts still count. */
function inUse(sim: Simulation, line: Line, at: Instance): Diagram {
  let set = sim.state.where(
    lineItems.state(line, at),
    universe(sim, line.presence),
    (value) => value === 'fitted',
  );
  for (const span of line.spans) {
    if (typeof span === 'string') continue;
    for (const spanAt of matching(span.instances, at)) {
      let gone = sim.state.where(partItems.state(span, spanAt), set, (value) => value === 'discarded');
      for (const other of sim.lookups.replacing(span))
        for (const otherAt of matching(other.instances, spanAt)) {
          const there = sim.state.diagrams.and(gone, other.presence);
          const on = sim.state.where(partItems.state(other, otherAt), there, isOn);
          gone = sim.state.diagrams.minus(gone, on);
        }
      set = sim.state.diagrams.minus(set, gone);
    }
  }
  return set;
}

function* lines(sim: Simulation): Generator<[Line, Instance]> {
  for (const line of sim.corners.everyLine) for (const at of line.instances) yield [line, at];
}

const disconnected = (sim: Simulation, line: Line, at: Instance, within: Diagram): Diagram =>
  endsOf(line).reduce(
    (set, name) =>
      sim.state.diagrams.or(
        set,
        sim.state.where(lineItems.connected(line, name, at), within, (value) => value === false),
      ),
    0,
  );

export const leftDisconnected = owedAtEnd('left-disconnected', (sim) => {
  const debts: Debt[] = [];
  for (const [line, at] of lines(sim)) {
    const there = inUse(sim, line, at);
    for (const name of endsOf(line)) {
      const set = sim.state.where(lineItems.connected(line, name, at), there, (value) => value === false);
      debts.push(
        ...flagged(sim, 'left-disconnected', line.name, at, lineItems.owed(line, name, at), set, {
          state: 'disconnected',
          end: name,
        }),
      );
    }
  }
  return debts;
});

export const leftUnclipped = owedAtEnd('left-unclipped', (sim) => {
  const debts: Debt[] = [];
  for (const [line, at] of lines(sim)) {
    const set = sim.state.where(
      lineItems.clipped(line, at),
      inUse(sim, line, at),
      (value) => value === false,
    );
    debts.push(
      ...flagged(sim, 'left-unclipped', line.name, at, lineItems.clipOwed(line, at), set, {
        state: 'unclipped',
      }),
    );
  }
  return debts;
});

export const leftUnbled = owedAtEnd('left-unbled', (sim) => {
  const debts: Debt[] = [];
  for (const [line, at] of lines(sim)) {
    const there = inUse(sim, line, at);
    const set = sim.state.diagrams.minus(there, disconnected(sim, line, at, there));
    debts.push(...flagged(sim, 'left-unbled', line.name, at, lineItems.unbled(line, at), set));
  }
  return debts;
});

export const leftUnchecked = owedAtEnd('left-unchecked', (sim) => {
  const debts: Debt[] = [];
  for (const [line, at] of lines(sim)) {
    const there = inUse(sim, line, at);
    let set = sim.state.diagrams.minus(there, disconnected(sim, line, at, there));
    set = sim.state.where(lineItems.unbled(line, at), set, (value) => value !== true);
    debts.push(...flagged(sim, 'left-unchecked', line.name, at, lineItems.unchecked(line, at), set));
  }
  return debts;
});

/** Air springs: filled again after venting; a kit's, once fitted, filled at all. */
export const leftDeflated = owedAtEnd('left-deflated', (sim) => {
  const debts: Debt[] = [];
  for (const part of sim.corners.everyPart) {
    for (const at of part.instances) {
      const on = sim.state.where(partItems.state(part, at), universe(sim, part.presence), isOn);
      const empty = sim.state.where(partItems.pressure(part, at), on, (value) => value === 'empty');
      if (empty === 0) continue;
      if (part.origin === 'kit' && part.attributes.inflates) {
        for (const made of sim.state.madeBy(partItems.state(part, at), empty, isOn))
          debts.push({
            rule: 'left-deflated',
            item: part.name,
            side: at.label,
            since: made.run,
            set: made.set,
            facts: { state: 'empty' },
          });
      } else {
        debts.push(
          ...flagged(sim, 'left-deflated', part.name, at, partItems.pressureOwed(part, at), empty, {
            state: 'empty',
          }),
        );
      }
    }
  }
  return debts;
});
