// One operation on one instance: the rules of the state, the rules of the packs, the effect, what follows.

import { judgeBoltUp, judgeFree } from './bolting.ts';
import { judgeAids, judgeBeneath, judgeChocks } from './carrying.ts';
import { askedCorners, spotsOf } from './corners.ts';
import { droppedNow, limitersBefore } from './dropping.ts';
import { effect } from './effects.ts';
import { forgetTold, ruleEvent } from './families.ts';
import { noteHardware } from './hardware.ts';
import { judgeExpected, judgeTighten, judgeTorque, judgeUndo, takeNew } from './joints.ts';
import { judgeDisconnect } from './lines.ts';
import { judgeRenew, judgeSet } from './other.ts';
import { away, judgeFit, judgeReach, judgeRemove, judgeSwing } from './parts.ts';
import { figure } from './quantity.ts';
import { texts } from './raw.ts';
import { found, open, type Run } from './run.ts';
import { onGround } from './state.ts';
import type { Target } from './things.ts';
import { judgeAnchor } from './torsion.ts';
import { partMoved } from './travel.ts';
import { isAwaited, nothingToUndo } from './undone.ts';

const PLACING = ['fit', 'bolt-up', 'offer', 'start', 'snug', 'torque', 'transfer'];
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
  'drain',
  'fill',
  'inflate',
  'deflate',
];
const IN_PLACE = ['raise', 'fit', 'bolt-up', 'start', 'snug', 'torque'];
const UNDOING = ['unsupport', 'release', 'restore', 'unchock', 'unclip'];
const DROPPING = ['remove', 'unbolt', 'swing', 'free'];

/** Runs a verb on one instance. `byUnbolt` marks a joint that `unbolt` of its part takes out. */
export function perform(run: Run, verb: string, target: Target, byUnbolt = false): void {
  const { world } = run;
  const { part, joint } = target;
  if (run.judged && target.what !== 'words') run.worked = true;
  noteHardware(run, verb, target);
  const tightens = ['start', 'snug', 'torque'].includes(verb);
  if (tightens && joint) takeNew(run, joint, texts(run.raw.new));
  if (!hasEffect(run, verb, target)) return;
  if (tightens && target.what === 'joint' && joint) judgeTighten(run, joint);
  if (verb === 'remove' && part && (target.what === 'part' || target.what === 'joint'))
    judgeAnchor(run, part, joint);
  const onBench = ['off', 'discarded', 'boxed'].includes(part?.state ?? '') && !PLACING.includes(verb);
  if (part && !onBench && !OUT_OF_REACH.includes(verb) && ['part', 'joint', 'end'].includes(target.what)) {
    judgeReach(run, part, joint);
  }
  if (part) judgeBeneath(run, verb, target, askedCorners(world, part));
  const before = DROPPING.includes(verb) ? limitersBefore(world) : undefined;
  if (!judge(run, verb, target, byUnbolt)) return;
  if (run.judged) ruleEvent(run, verb, target);
  const fits = verb === 'bolt-up' && part?.state !== 'fitted' && part?.state !== 'off-with';
  if (run.judged && fits) ruleEvent(run, 'fit', target);
  effect(run, verb, target, (one) => perform(run, 'remove', one, true));
  if (before) droppedNow(run, target, before);
  if (run.judged) touchGiven(run, target);
  forgetTold(run);
}

/** `undo-undone` and `do-done`: whether there is anything to do. Without, no other rule is asked. */
function hasEffect(run: Run, verb: string, target: Target): boolean {
  const { part, joint, end, line } = target;
  if (UNDOING.includes(verb)) {
    if (!run.judged || !nothingToUndo(run, verb, target)) return true;
    const thing = line ?? (target.what === 'part' ? part : joint) ?? end;
    const awaited = ['unsupport', 'release'].includes(verb) && isAwaited(run, target);
    const granted = awaited || thing?.granted === true || run.granted.has(target.key);
    return idle(run, 'undo-undone', target, { granted });
  }
  if (verb === 'lower' && run.judged && ['vehicle', 'front', 'rear'].includes(target.item)) {
    const corners = spotsOf(run.world, target, run.sides)?.corners ?? [];
    if (
      corners.length > 0 &&
      corners.every((corner) => onGround(run.world, corner)) &&
      !run.granted.has(target.key)
    )
      found(run, 'undo-undone', target);
    return true; // what it is let down onto is taken away later on
  }
  if (target.what === 'joint' && joint) {
    if (verb === 'loosen' || verb === 'remove')
      return joint.position !== 'out' || idle(run, 'undo-undone', target, joint);
    const on = ['started', 'snug', 'final'].includes(joint.position);
    return verb !== 'start' || !on || idle(run, 'do-done', target, joint);
  }
  if (end && verb === 'free') return !end.freed || idle(run, 'undo-undone', target, end);
  if (end && verb === 'seat') return end.freed || idle(run, 'do-done', target, end);
  if (line && verb === 'disconnect')
    return (
      anyEnd(target, (one) => line.connected.get(one) === true) || idle(run, 'undo-undone', target, line)
    );
  if (line && verb === 'connect')
    return anyEnd(target, (one) => line.connected.get(one) !== true) || idle(run, 'do-done', target, line);
  if (verb === 'drill' && target.hole?.state === 'size') {
    const to = figure(run.raw.to, 'length');
    const wider = to !== undefined && (target.hole.size === undefined || to > target.hole.size + 0.5);
    return wider || idle(run, 'drilled-already', target, { granted: target.hole.oversize === true });
  }
  if (target.what !== 'part' || !part) return true;
  if (['remove', 'unbolt', 'swing'].includes(verb))
    return !away(part) || idle(run, 'undo-undone', target, part);
  const fitted = part.state === 'fitted' || part.state === 'off-with';
  if (verb === 'fit' || verb === 'offer') return !fitted || idle(run, 'do-done', target, part);
  if (verb !== 'bolt-up' || !fitted || part.joints.length === 0) return true;
  if (part.joints.some((one) => one.position === 'out')) return true;
  return idle(run, 'do-done', target, { granted: part.granted || part.joints.some((one) => one.granted) });
}

/** Tells that there is nothing to do, unless a finding took that for granted; always false. */
function idle(run: Run, rule: string, target: Target, thing?: { granted: boolean }): false {
  if (!thing?.granted) found(run, rule, target);
  return false;
}

function anyEnd(target: Target, is: (end: string) => boolean): boolean {
  const ends = target.lineEnd === undefined ? target.line!.ends : [target.lineEnd];
  return ends.some(is);
}

/** The built-in rules of a verb, before its effect; false where one leaves it without an effect. */
function judge(run: Run, verb: string, target: Target, byUnbolt: boolean): boolean {
  const { part, joint } = target;
  if (['raise', 'support', 'lower', 'hold', 'compress'].includes(verb)) judgeAids(run, verb, target);
  if (verb === 'raise') judgeChocks(run, target);
  if (verb === 'renew') judgeRenew(run, target);
  if (part && (verb === 'lower' ? target.what === 'part' : IN_PLACE.includes(verb)))
    partMoved(run, verb, part);
  if (verb === 'set') judgeSet(run, target);
  if ((verb === 'check' || verb === 'measure') && target.what === 'joint' && joint) judgeExpected(run, joint);
  if (verb === 'disconnect') judgeDisconnect(run, target);
  if (verb === 'free') judgeFree(run, target);
  if (target.what === 'joint' && joint) {
    if (verb === 'loosen' || verb === 'remove') return judgeUndo(run, verb, joint, byUnbolt);
    if (verb === 'torque') judgeTorque(run, joint);
    return true;
  }
  if (target.what !== 'part' || !part) return true;
  if (verb === 'remove') judgeRemove(run, part);
  if (verb === 'swing') judgeSwing(run, part);
  if (verb === 'bolt-up') judgeBoltUp(run, part);
  const fitted = part.state === 'fitted' || part.state === 'off-with';
  if (verb === 'fit' || (verb === 'bolt-up' && !fitted)) judgeFit(run, part);
  return true;
}

/** What `given` names owes from the first operation on it. */
export function touchGiven(run: Run, target: Target): void {
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
}
