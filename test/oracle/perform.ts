// One operation on one instance: the rules of the state, the rules of the packs, the effect, what follows.
import { judgeAids, judgeBeneath, judgeChocks } from './carrying.ts';
import { askedCorners } from './corners.ts';
import { droppedNow, limitersBefore } from './dropping.ts';
import { effect } from './effects.ts';
import { forgetTold, ruleEvent } from './families.ts';
import { judgeTighten, judgeTorque, judgeUndo, takeNew } from './joints.ts';
import { judgeConnect, judgeDisconnect } from './lines.ts';
import { judgeRenew, judgeSet } from './other.ts';
import { judgeAway, judgeFit, judgeReach, judgeRemove, judgeSwing } from './parts.ts';
import { texts } from './raw.ts';
import { found, open, type Run } from './run.ts';
import type { Target } from './things.ts';

const OUT_OF_REACH = [
  'check',
  'measure',
  'mark',
  'record',
  'raise',
  'lower',
  'support',
  'unsupport',
  'discard',
];
const DROPPING = ['remove', 'unbolt', 'swing', 'free'];

/** Runs a verb on one instance. `byUnbolt` marks a joint that `unbolt` of its part takes out. */
export function perform(run: Run, verb: string, target: Target, byUnbolt = false): void {
  const { world } = run;
  if (['start', 'snug', 'torque'].includes(verb) && target.joint)
    takeNew(run, target.joint, texts(run.raw.new));
  if (target.part && !OUT_OF_REACH.includes(verb) && ['part', 'joint', 'end'].includes(target.what)) {
    judgeReach(run, target.part, target.joint);
  }
  if (target.part) judgeBeneath(run, verb, target, askedCorners(world, target.part));
  const before = DROPPING.includes(verb) ? limitersBefore(world) : undefined;
  const effective = judge(run, verb, target, byUnbolt);
  if (run.judged) ruleEvent(run, verb, target);
  if (run.judged && verb === 'bolt-up') ruleEvent(run, 'fit', target);
  if (effective) effect(run, verb, target, (joint) => perform(run, 'remove', joint, true));
  if (before) droppedNow(run, target, before);
  if (run.judged) touchGiven(run, target);
  forgetTold(run);
}

/** The built-in rules of a verb, before its effect; whether it has one. */
function judge(run: Run, verb: string, target: Target, byUnbolt: boolean): boolean {
  const { part, joint } = target;
  if (['raise', 'support', 'lower', 'hold', 'compress'].includes(verb)) judgeAids(run, verb, target);
  if (verb === 'raise') judgeChocks(run, target);
  if (verb === 'renew') judgeRenew(run, target);
  if (verb === 'set') judgeSet(run, target);
  if (verb === 'disconnect') return judgeDisconnect(run, target);
  if (verb === 'connect') return judgeConnect(run, target);
  if (verb === 'free' || verb === 'seat') return judgeEnd(run, verb, target);
  if (target.what === 'joint' && joint) {
    if (verb === 'loosen' || verb === 'remove') return judgeUndo(run, verb, joint, byUnbolt);
    if (['start', 'snug', 'torque'].includes(verb)) judgeTighten(run, joint);
    if (verb === 'start' && ['started', 'snug', 'final'].includes(joint.position)) {
      if (!joint.granted) found(run, 'do-done', target);
      return false;
    }
    if (verb === 'torque') judgeTorque(run, joint);
    return true;
  }
  if (target.what !== 'part' || !part) return true;
  if (verb === 'remove') {
    if (!judgeAway(run, part)) return false;
    judgeRemove(run, part);
  }
  if (verb === 'unbolt') return judgeAway(run, part);
  if (verb === 'swing') {
    if (!judgeAway(run, part)) return false;
    judgeSwing(run, part);
  }
  if (verb === 'fit') return judgeFit(run, part);
  if (verb === 'bolt-up' && part.state !== 'fitted' && part.state !== 'off-with') return judgeFit(run, part);
  if (verb === 'bolt-up' && part.joints.length > 0 && part.joints.every((one) => one.position !== 'out')) {
    if (!part.granted && !part.joints.some((one) => one.granted)) found(run, 'do-done', target);
    return false;
  }
  return true;
}

function judgeEnd(run: Run, verb: string, target: Target): boolean {
  const end = target.end;
  if (!end) return false;
  if (verb === 'free' && end.freed) found(run, 'undo-undone', target);
  else if (verb === 'seat' && !end.freed) found(run, 'do-done', target);
  else return true;
  return false;
}

/** What `given` names owes from the first operation on it. */
export function touchGiven(run: Run, target: Target): void {
  const { world } = run;
  const { part, joint, end, line } = target;
  if (joint?.given && target.what === 'joint') {
    joint.given = false;
    if (joint.position !== 'tight' && joint.position !== 'final') joint.debt = open(run, joint.debt);
  }
  if (target.what === 'part' && part?.given) {
    part.given = false;
    if (part.state === 'off' || part.state === 'swung') part.debt = open(run, part.debt);
    if (part.compressed) part.compressedDebt = open(run, part.compressedDebt);
    if (part.pressure === 'empty') part.pressureDebt = open(run, part.pressureDebt);
  }
  if (end?.given) {
    end.given = false;
    if (end.freed) end.debt = open(run, end.debt);
  }
  if (line?.given) {
    line.given = false;
    if (line.ends.some((one) => line.connected.get(one) !== true)) line.debt = open(run, line.debt);
    if (line.unclipped) line.unclippedDebt = open(run, line.unclippedDebt);
    if (line.unbled || line.unchecked) line.openedDebt = open(run, line.openedDebt);
  }
  if (!world.givenNames.has(target.key)) return;
  world.givenNames.delete(target.key);
  if (world.values.get(target.item) === 'safe' && !world.valueDebt.has(target.item)) {
    world.valueDebt.set(target.item, run.path);
  }
  const drained = world.drained.get(target.key);
  if (drained) drained.path = open(run, drained.path);
  const hold = world.holds.get(target.key);
  if (hold) hold.path = open(run, hold.path);
  if (target.item !== 'vehicle') return;
  for (const corner of world.corners)
    if (corner.carry !== 'wheel') corner.liftDebt = open(run, corner.liftDebt);
}
