import type { Instance } from '../../model/instances';
import { matching } from '../../model/instances';
import type { Line } from '../../model/model';
import { endsOf } from '../../simulate/effects-rest';
import {
  corner as cornerItems,
  isOn,
  joint as jointItems,
  line as lineItems,
  part as partItems,
} from '../../simulate/items';
import type { Simulation } from '../../simulate/simulation';
import type { Branch, Item } from '../../simulate/state';
import type { Builtin } from './builtin';
import { isReplaced } from './replaced';

const RULE = 'line-stretched';
const TOLD = `told:${RULE}`;
const told = (name: string): Item => ({ kind: TOLD, of: name, at: '', initial: false });

/** No hose, lead or cable is pulled beyond its slack by what is let down. */
export const lineStretched: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [],
    sank(sim, event, corner, set) {
      for (const line of sim.corners.everyLine) {
        for (const at of line.instances) {
          if (!sim.corners.crosses(line, at, corner)) continue;
          sim.state.explore(sim.state.diagrams.and(set, line.presence), event.run, (branch) => {
            if (branch.get(lineItems.state(line, at)) !== 'fitted') return;
            if (!endsOf(line).every((name) => branch.get(lineItems.connected(line, name, at)) === true))
              return;
            const hang = branch.get(cornerItems.hang(corner));
            if (typeof hang !== 'number' || hang <= 0) return;
            const slack = slackOf(sim, branch, line, at);
            if (slack.figure === null) {
              sim.leaveUndecided(RULE, line.name, slack.property);
              return;
            }
            if (hang <= slack.figure || branch.get(told(`${line.name}${at.key}`)) === true) return;
            branch.put(told(`${line.name}${at.key}`), true);
            report(sim, branch, event, line, at, hang, slack);
          });
        }
      }
    },
  }),
};

function report(
  sim: Simulation,
  branch: Branch,
  event: Parameters<NonNullable<ReturnType<Builtin['watch']>['sank']>>[1],
  line: Line,
  at: Instance,
  hang: number,
  slack: { figure: number | null; property: string },
): void {
  branch.whenDone((set) =>
    sim.report({
      rule: RULE,
      operation: event.operation.path,
      item: line.name,
      side: at.label,
      set,
      event,
      causes: [],
      facts: {
        hang: `${hang} mm`,
        slack: `${slack.figure} mm`,
        bracket: slack.property === 'slack' && line.heldBy !== null ? line.heldBy.name : '',
      },
    }),
  );
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
