import type { Instance } from '../../model/instances';
import { matching } from '../../model/instances';
import type { Line, Part } from '../../model/model';
import { endsOf } from '../../simulate/effects-rest';
import type { Event } from '../../simulate/event';
import {
  assumed,
  isOn,
  joint as jointItems,
  line as lineItems,
  named,
  part as partItems,
} from '../../simulate/items';
import { isReplaced } from '../../simulate/replaced';
import type { Simulation } from '../../simulate/simulation';
import { isHeld } from '../../simulate/spots';
import type { Branch } from '../../simulate/state';
import { ask } from '../../simulate/watcher';
import type { Builtin } from './builtin';

const RULE = 'part-hangs-on-line';

/** A part does not hang on its hose or lead alone, and is not taken away with one still connected. */
export const partHangsOnLine: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: [],
    stepEnded(sim, events) {
      const seen = new Set<string>();
      for (const event of [...events].reverse()) {
        for (const { part, at } of loosened(event)) {
          if (seen.has(`${part.name}${at.key}`)) continue;
          seen.add(`${part.name}${at.key}`);
          look(sim, event, part, at);
        }
      }
    },
  }),
};

/** The parts that an event may have left to hang: taken off, undone, or let go, itself or by its line. */
function loosened({ verb, subject, at }: Event): { part: Part; at: Instance }[] {
  if (verb === 'unsupport') return subject.type === 'part' ? [{ part: subject.part, at }] : [];
  if (verb !== 'remove' && verb !== 'release') return [];
  if (subject.type === 'joint') return [{ part: subject.joint.part, at }];
  if (subject.type === 'part') return [{ part: subject.part, at }];
  if (subject.type !== 'line' || verb !== 'release') return [];
  return subject.line.spans.flatMap((part) =>
    typeof part === 'string' ? [] : matching(part.instances, at).map((partAt) => ({ part, at: partAt })),
  );
}

function look(sim: Simulation, event: Event, part: Part, at: Instance): void {
  const { diagrams } = sim.state;
  let told = 0;
  for (const line of sim.lookups.spanning(part)) {
    for (const lineAt of matching(line.instances, at)) {
      const there = sim.state.diagrams.and(event.guard, sim.state.diagrams.and(line.presence, part.presence));
      sim.state.explore(there, event.run, (branch) => {
        // What another finding took to be off is where it was.
        if (branch.get(assumed(part.name, at)) === true) return;
        // What lies aside with a new one in its place: the line is the new one's.
        if (!isOn(branch.get(partItems.state(part, at))) && isReplaced(sim, branch, part, at)) return;
        if (!hangs(branch, part, at)) return;
        ask(sim, branch, event, RULE, line.name, lineAt.label);
        if (isKept(sim, branch, part, at, line, lineAt)) return;
        if (branch.get(lineItems.state(line, lineAt)) !== 'fitted') return;
        if (!endsOf(line).every((name) => branch.get(lineItems.connected(line, name, lineAt)) === true))
          return;
        branch.put(assumed(line.name, lineAt), true);
        branch.whenDone((set) => {
          told = diagrams.or(told, set);
          sim.report({
            rule: RULE,
            operation: event.operation.path,
            item: line.name,
            side: lineAt.label,
            set,
            event,
            causes: [],
            facts: { part: part.name },
          });
        });
      });
    }
  }
  // Each line it hangs on is told; then it counts as held.
  sim.state.explore(told, event.run, (branch) => branch.put(partItems.assumedHeld(part, at), true));
}

/** What is still in place is held by any aid; what is taken away, only by a wire or hook on it or on the line. */
function isKept(
  sim: Simulation,
  branch: Branch,
  part: Part,
  at: Instance,
  line: Line,
  lineAt: Instance,
): boolean {
  if (isOn(branch.get(partItems.state(part, at)))) return isHeld(sim, branch, part, at);
  if (branch.get(partItems.assumedHeld(part, at)) === true) return true;
  return branch.get(named.hold(part.name, at)) !== '' || branch.get(named.hold(line.name, lineAt)) !== '';
}

function hangs(branch: Branch, part: Part, at: Instance): boolean {
  const state = branch.get(partItems.state(part, at));
  if (state === 'off' || state === 'discarded') return true;
  if (!isOn(state) || part.joints.size === 0) return false;
  if (state === 'swung') return false;
  for (const joint of part.joints.values())
    if (branch.within(joint.presence) && branch.get(jointItems.position(joint, at)) !== 'out') return false;
  return true;
}
