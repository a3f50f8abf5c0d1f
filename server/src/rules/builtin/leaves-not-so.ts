import type { Instance } from '../../model/instances';
import type { StateEntry } from '../../model/model';
import { endsOf, normalValue } from '../../simulate/effects-rest';
import { ALONE } from '../../simulate/event';
import {
  corner as cornerItems,
  end as endItems,
  joint as jointItems,
  line as lineItems,
  named,
  part as partItems,
} from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import { bodySpot } from '../../simulate/spots';
import type { Diagram } from '../../variants/diagram';
import type { Builtin } from './builtin';

/** What a guide says it leaves is what it leaves. */
export const leavesNotSo: Builtin = {
  name: 'leaves-not-so',
  watch: () => ({
    verbs: [],
    ended(sim) {
      for (const entry of sim.model.leaves) {
        for (const { at, set } of instances(sim, entry)) {
          sim.asks('leaves-not-so', null, entry.target.written, at.label, set);
          const wrong = sim.state.diagrams.minus(set, isSo(sim, entry, at, set));
          if (wrong === 0) continue;
          sim.report({
            rule: 'leaves-not-so',
            operation: '0',
            item: entry.target.written,
            side: at.label,
            set: wrong,
            event: null,
            causes: [],
            facts: { state: entry.state },
            place: entry.place,
          });
        }
      }
    },
  }),
};

function instances(sim: Simulation, entry: StateEntry): { at: Instance; set: Diagram }[] {
  const { target } = entry;
  const thing =
    target.type === 'part'
      ? target.part
      : target.type === 'joint' || target.type === 'piece'
        ? target.joint.part
        : target.type === 'end'
          ? target.end.part
          : target.type === 'line'
            ? (target.lines[0] ?? null)
            : null;
  const { diagrams } = sim.state;
  const set = diagrams.and(sim.model.universe, entry.set);
  if (thing === null) return [{ at: ALONE, set }];
  return thing.instances
    .filter((at) => at.side === '' || entry.sides.includes(at.side))
    .map((at) => ({ at, set: diagrams.and(set, thing.presence) }));
}

/** The variants in which an entry's item is in the state it names. */
function isSo(sim: Simulation, entry: StateEntry, at: Instance, within: Diagram): Diagram {
  const { target, state } = entry;
  const where = sim.state.where.bind(sim.state);
  switch (target.type) {
    case 'joint':
      return where(jointItems.position(target.joint, at), within, (value) => value === state);
    case 'end':
      return where(
        endItems.freed(target.end, at),
        within,
        (value) => (value === true) === (state === 'freed'),
      );
    case 'part': {
      const { part } = target;
      if (state === 'compressed')
        return where(partItems.compressed(part, at), within, (value) => value === true);
      if (state === 'drained') return where(named.drained(part.name, at), within, (value) => value === true);
      if (state === 'empty') return where(partItems.pressure(part, at), within, (value) => value === 'empty');
      if (state === 'supported') return within;
      return where(partItems.state(part, at), within, (value) => value === state);
    }
    case 'line': {
      const line = target.lines[0];
      if (line === undefined) return within;
      if (state === 'disconnected' || state === 'connected') {
        const ends = target.end === null ? endsOf(line) : [target.end];
        return ends.reduce(
          (set, name) =>
            where(
              lineItems.connected(line, name, at),
              set,
              (value) => (value === true) === (state === 'connected'),
            ),
          within,
        );
      }
      if (state === 'clipped' || state === 'unclipped')
        return where(
          lineItems.clipped(line, at),
          within,
          (value) => (value === true) === (state === 'clipped'),
        );
      if (line.paths.has(state)) return where(lineItems.path(line, at), within, (value) => value === state);
      return where(lineItems.state(line, at), within, (value) => value === state);
    }
    case 'built-in':
      if (target.name === 'vehicle') {
        const raised = sim.corners.all.reduce((set, corner) => {
          const up = where(cornerItems.carry(corner), within, (value) => value !== 'wheel');
          const lift = where(bodySpot(corner).aids, within, (value) =>
            String(value)
              .split('+')
              .some((name) => sim.model.aids.get(name)?.takesWheels),
          );
          return sim.state.diagrams.or(set, sim.state.diagrams.or(up, lift));
        }, 0);
        return state === 'raised' ? raised : sim.state.diagrams.minus(within, raised);
      }
      if (state === 'safe' || state === 'live')
        return where(named.safe(target.name), within, (value) => (value === true) === (state === 'safe'));
      return where(
        named.switched(target.name, normalValue(sim, target.name)),
        within,
        (value) => value === state,
      );
    default:
      return within;
  }
}
