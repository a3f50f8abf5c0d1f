import type { Instance } from '../../model/instances';
import type { Part } from '../../model/model';
import type { Corner } from '../../simulate/corners';
import { corner as cornerItems, isOn, part as partItems } from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Branch, Item } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import { isLetGo } from './bar-anchors';
import type { Builtin } from './builtin';

const RULE = 'spring-loaded';
/** It was told of a spring there: that the next one has no room either is no news. */
export const toldLoaded = ({ key }: Corner): Item => ({
  kind: `told:${RULE}`,
  of: key,
  at: '',
  initial: false,
});

/** A spring comes out only when it is free, held compressed, unloaded or empty. */
export const springLoaded: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['remove'],
    before(sim, branch, event) {
      const { subject, at } = event;
      if (subject.type !== 'part' || !subject.part.attributes.storesEnergy) return undefined;
      const { part } = subject;
      const state = branch.get(partItems.state(part, at));
      if (!isOn(state) && !isBenched(state)) return undefined;
      ask(sim, branch, event, RULE);
      if (!isLoaded(sim, branch, part, at)) return undefined;
      const corners = sim.corners.ofOrAll(part, at);
      const hang = corners
        .map((corner) => branch.get(cornerItems.hang(corner)))
        .find((value) => !isFree(part, state, value));
      for (const corner of corners) branch.put(toldLoaded(corner), true);
      flag(sim, branch, event, RULE, part.name, {
        facts: {
          hang: typeof hang === 'number' ? `${hang} mm` : '',
          free: part.freeAt === null ? '' : `${part.freeAt} mm`,
        },
      });
      return undefined;
    },
  }),
};

/** Whether a spring that is on the vehicle, or off with what it joins, still has its force in it. */
export function isLoaded(sim: Simulation, branch: Branch, part: Part, at: Instance): boolean {
  if (branch.get(partItems.compressed(part, at)) === true) return false;
  if (branch.get(partItems.unloaded(part, at)) === true) return false;
  if (branch.get(partItems.pressure(part, at)) === 'empty') return false;
  const state = branch.get(partItems.state(part, at));
  const corners = sim.corners.ofOrAll(part, at);
  if (corners.every((corner) => isFree(part, state, branch.get(cornerItems.hang(corner))))) return false;
  return !isLetGo(sim, branch, part, at);
}

const isBenched = (state: unknown) => String(state).startsWith('with:');

/** Whether a spring is free where its corner hangs so far down. However far it hangs, the air is in it. */
function isFree(part: Part, state: unknown, hang: unknown): boolean {
  if (isBenched(state) || part.attributes.inflates || typeof hang !== 'number') return false;
  return part.freeAt === null ? hang > 0 : hang >= part.freeAt;
}
