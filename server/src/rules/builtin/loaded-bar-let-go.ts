import { matching } from '../../model/instances';
import { isOn, joint as jointItems, part as partItems } from '../../simulate/items';
import { ask, flag } from '../../simulate/watcher';
import { anchorsOf } from './bar-anchors';
import type { Builtin } from './builtin';
import { isLoaded } from './spring-loaded';

const RULE = 'loaded-bar-let-go';

/** What anchors a torsion bar comes away only when the bar is unloaded, or held by its tool. */
export const loadedBarLetGo: Builtin = {
  name: RULE,
  watch: () => ({
    verbs: ['remove'],
    concerns: ({ type }) => type === 'part' || type === 'joint',
    before(sim, branch, event) {
      const { subject, at } = event;
      const part =
        subject.type === 'joint' ? subject.joint.part : subject.type === 'part' ? subject.part : null;
      if (part === null) return undefined;
      const bars = sim.lookups.adjusted.filter((bar) => anchorsOf(sim, bar).includes(part));
      if (bars.length === 0 || !isOn(branch.get(partItems.state(part, at)))) return undefined;
      if (subject.type === 'joint')
        for (const joint of part.joints.values())
          if (joint !== subject.joint && branch.within(joint.presence))
            if (branch.get(jointItems.position(joint, at)) !== 'out') return undefined;
      ask(sim, branch, event, RULE, part.name);
      const loaded = bars.find(
        (bar) =>
          branch.within(bar.presence) &&
          matching(bar.instances, at).some(
            (barAt) => isOn(branch.get(partItems.state(bar, barAt))) && isLoaded(sim, branch, bar, barAt),
          ),
      );
      if (loaded !== undefined) flag(sim, branch, event, RULE, part.name, { facts: { bar: loaded.name } });
      return undefined;
    },
  }),
};
