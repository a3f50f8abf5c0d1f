import type { Instance } from '../../model/instances';
import type { Joint, Part } from '../../model/model';
import type { Corner } from '../../simulate/corners';
import { assumePosition } from '../../simulate/effects-joints';
import { assumePart } from '../../simulate/effects-parts';
import type { Event } from '../../simulate/event';
import { joint as jointItems, part as partItems } from '../../simulate/items';
import { isReplaced } from '../../simulate/replaced';
import type { Simulation } from '../../simulate/simulation';
import { ask, flag } from '../../simulate/watcher';
import type { Watchlist } from '../../simulate/watchlist';
import type { Diagram } from '../../variants/diagram';
import type { Builtin } from './builtin';

/** Reports a finding of a landing: it stands at the operation that brings the vehicle down. */
function report(
  sim: Simulation,
  event: Event,
  rule: string,
  item: string,
  at: Instance,
  set: Diagram,
  causes: readonly number[],
  facts: Readonly<Record<string, string>> = {},
): void {
  sim.report({ rule, operation: event.operation.path, item, side: at.label, set, event, causes, facts });
}

/** Air springs at a corner, instance by instance, with the landing's variants in which they exist. */
function* airSpringsAt(sim: Simulation, corner: Corner, set: Diagram): Generator<[Part, Instance, Diagram]> {
  for (const part of sim.lookups.airSprings) {
    const there = sim.state.diagrams.and(set, part.presence);
    if (there === 0) continue;
    for (const at of part.instances)
      if (sim.corners.ofOrAll(part, at).includes(corner)) yield [part, at, there];
  }
}

/** A vehicle comes down on its wheels: they are on, with every nut seated. */
export const wheelSeatedBeforeGround: Builtin = {
  name: 'wheel-seated-before-ground',
  watch: () => ({
    verbs: [],
    landed(sim, event, corner, set) {
      for (const { wheel, at } of wheelsOf(sim, corner)) {
        const there = sim.state.diagrams.and(set, wheel.presence);
        sim.asks('wheel-seated-before-ground', event, wheel.name, at.label, there);
        sim.state.explore(there, event.run, (branch) => {
          const state = branch.get(partItems.state(wheel, at));
          if (isReplaced(sim, branch, wheel, at)) return;
          let bad = state === 'fitted' ? '' : 'off';
          const open = [];
          for (const joint of wheel.joints.values()) {
            if (!branch.within(joint.presence)) continue;
            const position = branch.get(jointItems.position(joint, at));
            if (position === 'tight' || position === 'snug' || position === 'final') continue;
            open.push(joint);
            if (bad === '') bad = String(position);
          }
          if (bad === '' || (state === 'boxed' && wheel.origin === 'kit')) return;
          assumePart(branch, wheel, at, 'fitted');
          for (const joint of open) assumePosition(branch, joint, at, 'snug');
          branch.whenDone((final) =>
            report(sim, event, 'wheel-seated-before-ground', wheel.name, at, final, [], {
              state: bad === 'off' ? 'off' : 'on without its nuts seated',
            }),
          );
        });
      }
    },
  }),
};

/** The wheels of a corner; with no wheel declared, implied ones that the guide names. */
function wheelsOf(sim: Simulation, corner: Corner): { wheel: Part; at: Instance }[] {
  const declared = [...corner.wheels];
  const implied = sim.lookups.impliedWheels.flatMap((wheel) =>
    wheel.instances.filter((at) => sim.corners.of(wheel, at).includes(corner)).map((at) => ({ wheel, at })),
  );
  return [...declared, ...implied];
}

/** A joint at a corner, with where it is. */
type JointAt = { readonly joint: Joint; readonly at: Instance };

/** The joints of suspension and steering at a corner; and which of them are out or only started, somewhere. */
interface Gear {
  readonly joints: readonly JointAt[];
  readonly open: Watchlist;
}

function gearAt(sim: Simulation, corner: Corner): Gear {
  const joints = sim.corners
    .runningGear(corner)
    .filter(({ part }) => !part.attributes.wheel)
    .flatMap(({ part, at }) => [...part.joints.values()].map((joint) => ({ joint, at })));
  const positions = joints.map(({ joint, at }) => jointItems.position(joint, at));
  return { joints, open: sim.state.watch(positions, (value) => value === 'out' || value === 'started') };
}

/** No joint of suspension or steering takes the weight only started by hand. */
export const jointsSnugBeforeGround: Builtin = {
  name: 'joints-snug-before-ground',
  watch: () => {
    const gears = new WeakMap<Simulation, Map<Corner, Gear>>();
    const gearOf = (sim: Simulation, corner: Corner) => {
      const known = gears.get(sim) ?? new Map<Corner, Gear>();
      gears.set(sim, known);
      const gear = known.get(corner) ?? gearAt(sim, corner);
      known.set(corner, gear);
      return gear;
    };
    return {
      verbs: [],
      landed(sim, event, corner, set) {
        const { joints, open } = gearOf(sim, corner);
        if (sim.isCounted)
          for (const { joint, at } of joints)
            sim.asks('joints-snug-before-ground', event, joint.full, at.label, presentIn(sim, set, joint));
        for (const place of open.now()) lookAt(sim, event, joints[place]!, set);
      },
    };
  },
};

function presentIn({ state: { diagrams } }: Simulation, set: Diagram, joint: Joint): Diagram {
  return diagrams.and(diagrams.and(set, joint.part.presence), joint.presence);
}

function lookAt(sim: Simulation, event: Event, { joint, at }: JointAt, set: Diagram): void {
  const { part } = joint;
  const there = presentIn(sim, set, joint);
  sim.state.explore(there, event.run, (branch) => {
    const position = branch.get(jointItems.position(joint, at));
    if (position !== 'out' && position !== 'started') return;
    if (branch.get(partItems.state(part, at)) !== 'fitted') return;
    assumePosition(branch, joint, at, 'snug');
    branch.whenDone((final) => {
      const made = sim.state.madeBy(jointItems.position(joint, at), final, (value) => value === position);
      report(
        sim,
        event,
        'joints-snug-before-ground',
        joint.full,
        at,
        final,
        made.map(({ run }) => run),
        { how: position === 'out' ? 'still out' : 'only started by hand' },
      );
    });
  });
}

/** An air spring carries only when it is filled. */
export const inflateBeforeGround: Builtin = {
  name: 'inflate-before-ground',
  watch: () => ({
    verbs: [],
    landed(sim, event, corner, set) {
      for (const [part, at, there] of airSpringsAt(sim, corner, set)) {
        sim.asks('inflate-before-ground', event, part.name, at.label, there);
        sim.state.explore(there, event.run, (branch) => {
          if (branch.get(partItems.state(part, at)) !== 'fitted') return;
          const pressure = branch.get(partItems.pressure(part, at));
          const low = part.pressure?.low ?? 0;
          if (pressure === 'full' || (typeof pressure === 'number' && pressure >= low - 0.5)) return;
          branch.put(partItems.pressure(part, at), 'full');
          branch.put(partItems.pressureOwed(part, at), false);
          branch.whenDone((final) =>
            report(sim, event, 'inflate-before-ground', part.name, at, final, [], {
              pressure: typeof pressure === 'number' ? `${Math.round(pressure)} kPa` : 'empty',
            }),
          );
        });
      }
    },
  }),
};

/** A vehicle is not rolled on a hub whose nut is not tight. */
export const hubNutBeforeRolling: Builtin = {
  name: 'hub-nut-before-rolling',
  watch: () => ({
    verbs: ['move'],
    before(sim, branch, event) {
      for (const part of sim.lookups.hubs) {
        if (!branch.within(part.presence)) continue;
        for (const at of part.instances) {
          if (branch.get(partItems.state(part, at)) !== 'fitted') continue;
          ask(sim, branch, event, 'hub-nut-before-rolling', part.name, at.label);
          for (const joint of part.joints.values()) {
            if (!branch.within(joint.presence)) continue;
            const position = branch.get(jointItems.position(joint, at));
            if (position === 'tight' || position === 'final') continue;
            assumePosition(branch, joint, at, 'final');
            flag(sim, branch, event, 'hub-nut-before-rolling', joint.full, { side: at.label });
          }
        }
      }
      return undefined;
    },
  }),
};
