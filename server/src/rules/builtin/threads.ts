import { leastEngagement } from '../../calc/strength';
import { parseThread } from '../../calc/threads';
import { ask, flag } from '../../simulate/watcher';
import type { Builtin } from './builtin';
import { figureFor, hardwareFor, KnownJoints } from './fastened';

/** A nut bears what its bolt does. */
export const nutWeaker: Builtin = {
  name: 'nut-weaker',
  watch() {
    const joints = new KnownJoints();
    return {
      verbs: ['torque'],
      before(sim, branch, event) {
        const { subject } = event;
        if (subject.type !== 'joint' || event.within !== null) return undefined;
        const { joint } = subject;
        const fastened = joints.of(sim.model, joint);
        if (fastened === null) return undefined;
        if (fastened.nutClass === null) {
          // Of what carries the structure nobody knows then whether its nut does.
          if (joint.structural && joint.nut !== null)
            sim.leaveUndecided('nut-weaker', joint.full, 'nut-class');
          return undefined;
        }
        ask(sim, branch, event, 'nut-weaker');
        const { known, bolt, nutClass } = fastened;
        const verdict = known.nut(nutClass);
        // A thin nut that is turned against another one carries nothing.
        const figure = figureFor(branch, event.operation, joint);
        const thin = verdict === 'thin' && figure !== null && figure.low >= known.expected.low;
        if (verdict === 'weaker' || thin)
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

/** What is in the box goes together with what it is screwed to: bolt and nut, or a new one of them with what stays. */
export const threadDiffers: Builtin = {
  name: 'thread-differs',
  watch: () => ({
    verbs: ['torque'],
    before(sim, branch, event) {
      const { subject } = event;
      if (subject.type !== 'joint' || event.within !== null) return undefined;
      const { joint } = subject;
      const nut = hardwareFor(sim.model, joint, 'nut')?.thread ?? null;
      const bolt = hardwareFor(sim.model, joint, null, 'bolt')?.thread ?? joint.thread;
      const other = nut ?? (hardwareFor(sim.model, joint, 'bolt') === undefined ? null : joint.thread);
      if (bolt === null || other === null) return undefined;
      ask(sim, branch, event, 'thread-differs');
      if (isOneThread(bolt, other)) return undefined;
      flag(sim, branch, event, 'thread-differs', joint.full, {
        facts: { bolt, other: nut === null ? `the thread there, ${other}` : `its nut, ${other}` },
      });
      return undefined;
    },
  }),
};

/** Whether two designations are of one thread; of what nobody can read nothing is said. */
function isOneThread(a: string, b: string): boolean {
  const [one, other] = [parseThread(a), parseThread(b)];
  if (!one.ok || !other.ok) return true;
  const near = (x: number, y: number) => Math.abs(x - y) < 0.01;
  return near(one.thread.diameter, other.thread.diameter) && near(one.thread.pitch, other.thread.pitch);
}

/** A bolt is screwed in far enough for its thread to bear. */
export const threadTooShort: Builtin = {
  name: 'thread-too-short',
  watch() {
    const joints = new KnownJoints();
    return {
      verbs: ['torque'],
      before(sim, branch, event) {
        const { subject } = event;
        if (subject.type !== 'joint' || event.within !== null) return undefined;
        const { joint } = subject;
        if (joint.engagement === null || joint.into === null) return undefined;
        const fastened = joints.of(sim.model, joint);
        if (fastened === null) return undefined;
        const { known, bolt } = fastened;
        ask(sim, branch, event, 'thread-too-short');
        const usual = leastEngagement(known.thread, known.strength.grade, joint.into);
        // A bolt that is hardly tightened, a plug, needs the less of it.
        const figure = figureFor(branch, event.operation, joint);
        const share = figure === null ? 1 : Math.min(1, figure.high / known.expected.low);
        const least = SURELY * share * usual;
        if (joint.engagement >= least) return undefined;
        flag(sim, branch, event, 'thread-too-short', joint.full, {
          facts: {
            bolt,
            depth: `${round(joint.engagement)} mm`,
            usual: `${round(usual * share)} mm`,
            into: joint.into.replace('-', ' '),
          },
        });
        return undefined;
      },
    };
  },
};

/** What is under three quarters of the usual length is surely too short; between that and it there are good joints. Common practice. */
const SURELY = 0.75;

const round = (figure: number): number => Math.round(figure * 10) / 10;
