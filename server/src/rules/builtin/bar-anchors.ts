/** What holds a torsion bar wound up: its adjuster and anchor, and what these sit on. */

import { type Instance, matching } from '../../model/instances';
import type { Part } from '../../model/model';
import { isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import { isReplaced } from '../../simulate/replaced';
import type { Simulation } from '../../simulate/simulation';
import type { Branch } from '../../simulate/state';

const ANCHORING = new Set(['adjuster', 'torsion-anchor']);
const isAnchoring = (part: Part) => part.kinds.some((kind) => ANCHORING.has(kind));

/** The parts that let a bar go when they come away; none of what is no bar. */
export function anchorsOf(sim: Simulation, bar: Part): readonly Part[] {
  if (!bar.attributes.adjusted) return [];
  const anchors = new Set(
    [...sim.lookups.joining(bar), ...bar.joins].filter(
      (part): part is Part => typeof part !== 'string' && isAnchoring(part),
    ),
  );
  for (const anchor of [...anchors])
    for (const seat of anchor.joins) if (typeof seat !== 'string' && isSeat(bar, seat)) anchors.add(seat);
  return [...anchors];
}

/** What an anchor sits on; the arm that the bar turns is none. */
const isSeat = (bar: Part, part: Part) =>
  part !== bar && !bar.joins.includes(part) && !part.attributes.wheel && !part.attributes.axle;

/** Whether something that held a bar is off, gone with nothing in its place, or undone at every joint. */
export function isLetGo(sim: Simulation, branch: Branch, bar: Part, at: Instance): boolean {
  return anchorsOf(sim, bar).some(
    (anchor) =>
      branch.within(anchor.presence) &&
      matching(anchor.instances, at).some((anchorAt) => isAway(sim, branch, anchor, anchorAt)),
  );
}

function isAway(sim: Simulation, branch: Branch, part: Part, at: Instance): boolean {
  const state = branch.get(partItems.state(part, at));
  if (state === 'off' || String(state).startsWith('with:')) return true;
  if (state === 'discarded') return !isReplaced(sim, branch, part, at);
  if (!isOn(state)) return false;
  const joints = [...part.joints.values()].filter((joint) => branch.within(joint.presence));
  return joints.length > 0 && joints.every((joint) => branch.get(jointItems.position(joint, at)) === 'out');
}
