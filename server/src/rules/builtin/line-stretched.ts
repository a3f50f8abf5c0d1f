import type { Instance } from '../../model/instances';
import { matching } from '../../model/instances';
import type { Line, Part } from '../../model/model';
import { partOf } from '../../model/target';
import { endsOf } from '../../simulate/effects-rest';
import type { Event } from '../../simulate/event';
import {
  corner as cornerItems,
  isOn,
  joint as jointItems,
  line as lineItems,
  part as partItems,
} from '../../simulate/items';
import { isReplaced } from '../../simulate/replaced';
import type { Simulation } from '../../simulate/simulation';
import type { Branch, Item } from '../../simulate/state';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'line-stretched';
const TOLD = `told:${RULE}`;
const told = (name: string): Item => ({ kind: TOLD, of: name, at: '', initial: false });
/** After these a part is no longer let down: raised, or in its place again. */
const BROUGHT_UP = ['raise', 'fit', 'bolt-up', 'start', 'snug', 'torque'];
/** How far a part that is no axle or arm was let down from its place, in mm. */
const sunk = (part: Part, at: Instance): Item => ({
  kind: `sunk:${RULE}`,
  of: part.name,
  at: at.key,
  initial: 0,
});

/** No hose, lead or cable is pulled beyond its slack by what is let down. */
export const lineStretched: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['lower', ...BROUGHT_UP],
    before(sim, branch, event) {
      const part = partOf(event.subject);
      if (part === null || movesCorners(part)) return undefined;
      const depth = sunk(part, event.at);
      if (event.verb !== 'lower') branch.put(depth, raisedTo(event, Number(branch.get(depth))));
      else if (event.subject.type === 'part' && isOn(branch.get(partItems.state(part, event.at)))) {
        const now = Number(branch.get(depth)) + (event.operation.by?.nominal ?? 0);
        branch.put(depth, now);
        for (const line of sim.lookups.spanning(part))
          if (branch.within(line.presence) && pulls(sim, branch, line, part))
            for (const at of matching(line.instances, event.at))
              look(sim, branch, event, line, at, now, part.name);
      }
      return undefined;
    },
    sank(sim, event, corner, set) {
      for (const line of sim.corners.everyLine) {
        for (const at of line.instances) {
          if (!sim.corners.crosses(line, at, corner)) continue;
          sim.state.explore(sim.state.diagrams.and(set, line.presence), event.run, (branch) => {
            const hang = branch.get(cornerItems.hang(corner));
            if (typeof hang === 'number') look(sim, branch, event, line, at, hang, 'the axle');
          });
        }
      }
    },
  }),
};

const movesCorners = ({ attributes }: Part) => attributes.axle || attributes.arm || attributes.wheel;

/** Where `raise` leaves a part that was let down: what brings it up by itself puts it in its place. */
function raisedTo({ verb, operation }: Event, depth: number): number {
  return verb === 'raise' && operation.by !== null ? Math.max(0, depth - operation.by.nominal) : 0;
}

/** Whether a line runs from a part to something that stays where it is when that is let down. */
function pulls(sim: Simulation, branch: Branch, line: Line, part: Part): boolean {
  const along = sim.corners.closure(part);
  return line.spans.some((span) => {
    if (typeof span === 'string') return true;
    if (!branch.within(span.presence) || along.has(span) || sim.corners.closure(span).has(part)) return false;
    return !span.replaces.includes(part) && !part.replaces.includes(span);
  });
}

/** Tells of a line once that is connected and has less slack than what it hangs on goes down, in mm. */
function look(
  sim: Simulation,
  branch: Branch,
  event: Event,
  line: Line,
  at: Instance,
  hang: number,
  moved: string,
): void {
  if (hang <= 0 || branch.get(lineItems.state(line, at)) !== 'fitted') return;
  if (!endsOf(line).every((name) => branch.get(lineItems.connected(line, name, at)) === true)) return;
  ask(sim, branch, event, RULE, line.name, at.label);
  const slack = slackOf(sim, branch, line, at);
  if (slack.figure === null) {
    sim.leaveUndecided(RULE, line.name, slack.property);
    return;
  }
  if (hang <= slack.figure || branch.get(told(`${line.name}${at.key}`)) === true) return;
  branch.put(told(`${line.name}${at.key}`), true);
  flag(sim, branch, event, RULE, line.name, {
    side: at.label,
    facts: {
      moved,
      hang: `${hang} mm`,
      slack: `${slack.figure} mm`,
      bracket: slack.property === 'slack' && line.heldBy !== null ? line.heldBy.name : '',
    },
  });
}

/** The slack a line has now, by its path and its bracket, in mm; the property that would say it, where no file does. */
function slackOf(
  sim: Simulation,
  branch: Branch,
  line: Line,
  at: Instance,
): { figure: number | null; property: string } {
  if (line.paths.size > 0) {
    const path = String(branch.get(lineItems.path(line, at)));
    return { figure: line.paths.get(path) ?? null, property: `paths.${path}` };
  }
  if (line.heldBy !== null) {
    const bracket = line.heldBy;
    // How far a line reaches from a kit's bracket only the kit can say, and it has no word for it.
    if (isReplaced(sim, branch, bracket, at)) return { figure: null, property: 'slack' };
    const off = branch.within(bracket.presence)
      ? matching(bracket.instances, at).every((bracketAt) => {
          const state = branch.get(partItems.state(bracket, bracketAt));
          if (!isOn(state) || state === 'swung') return true;
          const joints = [...bracket.joints.values()];
          return (
            joints.length > 0 &&
            joints.every((joint) => branch.get(jointItems.position(joint, bracketAt)) === 'out')
          );
        })
      : true;
    return off
      ? { figure: line.slackFree, property: 'slack-free' }
      : { figure: line.slack, property: 'slack' };
  }
  if (line.slackFree !== null && branch.get(lineItems.clipped(line, at)) === false)
    return { figure: line.slackFree, property: 'slack-free' };
  return { figure: line.slack, property: 'slack' };
}
