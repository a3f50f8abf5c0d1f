import { leastEngagement } from '../../calc/strength';
import { flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { KnownJoints } from './fastened';

/** A nut bears what its bolt does. */
export const nutWeaker: Builtin = {
  name: 'nut-weaker',
  watch() {
    let joints: KnownJoints | null = null;
    return {
      verbs: ['torque'],
      before(sim, branch, event) {
        const { subject } = event;
        if (subject.type !== 'joint' || event.within !== null) return undefined;
        const { joint } = subject;
        joints ??= new KnownJoints(sim.model.hardware);
        const fastened = joints.of(joint);
        if (fastened === null || fastened.nutClass === null) return undefined;
        const { known, bolt, nutClass } = fastened;
        const verdict = known.nut(nutClass);
        if (verdict === 'weaker' || verdict === 'thin')
          flag(sim, branch, event, 'nut-weaker', joint.full, {
            facts: {
              bolt,
              nut: verdict === 'thin' ? `a thin nut (${nutClass})` : `a nut of class ${nutClass}`,
            },
          });
        return undefined;
      },
    };
  },
};

/** A bolt is screwed in far enough for its thread to bear. */
export const threadTooShort: Builtin = {
  name: 'thread-too-short',
  watch() {
    let joints: KnownJoints | null = null;
    return {
      verbs: ['torque'],
      before(sim, branch, event) {
        const { subject } = event;
        if (subject.type !== 'joint' || event.within !== null) return undefined;
        const { joint } = subject;
        if (joint.engagement === null || joint.into === null) return undefined;
        joints ??= new KnownJoints(sim.model.hardware);
        const fastened = joints.of(joint);
        if (fastened === null) return undefined;
        const { known, bolt } = fastened;
        const least = leastEngagement(known.thread, known.strength.grade, joint.into);
        // A thread or so is lost to the chamfer; figures are rounded.
        if (joint.engagement >= least - known.thread.pitch / 2) return undefined;
        flag(sim, branch, event, 'thread-too-short', joint.full, {
          facts: {
            bolt,
            depth: `${round(joint.engagement)} mm`,
            least: `${round(least)} mm`,
            into: joint.into.replace('-', ' '),
          },
        });
        return undefined;
      },
    };
  },
};

const round = (figure: number): number => Math.round(figure * 10) / 10;
