// The verb table: what each verb does to the state, after the rules have spoken.
import { chock, lower, raise, support, unsupport } from './carrying.ts';
import { spotsOf } from './corners.ts';
import { loosen, removeJoint, snug, start, takeNew, torque } from './joints.ts';
import { judgeRolling, landing, standLeftUnder } from './landing.ts';
import { bleed, clip, connect, discardLine, disconnect, hold, release, route } from './lines.ts';
import {
  adjust,
  check,
  coat,
  compress,
  cutEdge,
  deburr,
  deflate,
  drain,
  drill,
  inflate,
  rawEdge,
  relax,
  renew,
  switchTo,
} from './other.ts';
import { discard, judgeRemove, putOn, takeOff } from './parts.ts';
import { texts } from './raw.ts';
import { open, type Run } from './run.ts';
import { jointTarget, pieces } from './state.ts';
import type { Part, Target } from './things.ts';
import { judgeAnchor } from './torsion.ts';
import { rememberAids } from './undone.ts';

type RemoveJoint = (joint: Target) => void;

/** Applies a verb to one instance. `unbolt` takes joints out through `removeOne`. */
export function effect(run: Run, verb: string, target: Target, removeOne: RemoveJoint): void {
  const { part, joint, line } = target;
  if (target.what === 'joint' && joint) {
    if (verb === 'loosen') loosen(run, joint);
    if (verb === 'remove') removeJoint(run, joint);
    if (verb === 'start') start(run, joint);
    if (verb === 'snug') snug(run, joint);
    if (verb === 'torque') torque(run, joint);
  }
  if (joint && verb === 'renew') renew(joint, target.piece);
  if (target.what === 'part' && part) partEffect(run, verb, part, removeOne);
  if (target.end) endEffect(run, verb, target);
  if (line) {
    if (verb === 'disconnect') disconnect(run, target);
    if (verb === 'connect') connect(run, target);
    if (verb === 'unclip') clip(run, line, false);
    if (verb === 'clip') clip(run, line, true);
    if (verb === 'route') route(run, line);
    if (verb === 'bleed') bleed(line);
    if (verb === 'discard' && target.what === 'line') discardLine(run, target);
  }
  if (['raise', 'lower', 'support', 'unsupport'].includes(verb))
    for (const corner of spotsOf(run.world, target, run.sides)?.corners ?? []) corner.assumedRide = false;
  if (verb === 'raise') raise(run, target);
  if (verb === 'lower') lower(run, target);
  if (verb === 'support') support(run, target);
  if (verb === 'unsupport') unsupport(run, target);
  else if (['raise', 'lower', 'support'].includes(verb)) rememberAids(run, target);
  if (verb === 'chock' || verb === 'unchock') chock(run, target, verb === 'chock');
  if (verb === 'move') {
    standLeftUnder(run, run.world.corners, true);
    landing(run, run.world.corners);
    judgeRolling(run);
  }
  if (verb === 'hold') hold(run, target);
  if (verb === 'release') release(run, target);
  if (verb === 'isolate') run.world.safe.set(target.item, open(run, run.world.safe.get(target.item)));
  if (verb === 'restore') run.world.safe.delete(target.item);
  if (verb === 'switch') switchTo(run, target.item);
  if (verb === 'drain') drain(run, target);
  if (verb === 'fill') run.world.drained.delete(target.key);
  if (verb === 'mark' && target.hole?.state === 'none') {
    target.hole.state = 'marked';
    target.hole.debt = open(run, undefined);
  }
  if (verb === 'drill' && target.hole) drill(run, target.hole);
  const edge = verb === 'cut' || verb === 'weld' ? cutEdge(target) : undefined;
  if (edge) rawEdge(run, edge);
  if (verb === 'deburr') deburr(target);
  if (verb === 'coat') coat(target);
  if (verb === 'record' || (verb === 'set' && run.raw.to === 'recorded')) run.world.recorded.add(target.key);
  if (verb === 'check' || verb === 'measure') check(run, target);
}

function partEffect(run: Run, verb: string, part: Part, removeOne: RemoveJoint): void {
  if (verb === 'remove') takeOff(run, part);
  if (verb === 'unbolt') {
    for (const joint of part.joints.filter((one) => one.position !== 'out')) removeOne(jointTarget(joint));
    judgeAnchor(run, part, undefined);
    judgeRemove(run, part);
    takeOff(run, part);
  }
  if (verb === 'swing') {
    part.state = 'swung';
    part.debt = open(run, part.debt);
  }
  if (verb === 'fit') fit(run, part);
  if (verb === 'bolt-up') {
    if (part.state !== 'fitted' && part.state !== 'off-with') putOn(run, part);
    newPieces(run, part);
    for (const joint of part.joints) start(run, joint);
  }
  if (verb === 'discard') discard(run, part);
  if (verb === 'transfer' && (part.state === 'off' || part.state === 'off-with')) putOn(run, part);
  if (verb === 'offer' && (part.state === 'boxed' || part.state === 'off')) {
    part.beforeOffer = part.state;
    part.state = 'offered';
  }
  if (verb === 'withdraw' && part.state === 'offered') part.state = part.beforeOffer;
  if (verb === 'compress') compress(run, part);
  if (verb === 'relax') relax(run, part);
  if (verb === 'adjust') adjust(run, part);
  if (verb === 'inflate') inflate(run, part);
  if (verb === 'deflate') deflate(run, part);
}

function fit(run: Run, part: Part): void {
  putOn(run, part);
  newPieces(run, part);
}

/** `new:` on `fit` and `bolt-up` is for every joint of the part that has such a piece. */
function newPieces(run: Run, part: Part): void {
  const names = texts(run.raw.new);
  if (names.length === 0) return;
  for (const joint of part.joints) {
    const own = pieces(joint);
    takeNew(
      run,
      joint,
      names.filter((name) => own.includes(name)),
    );
  }
}

function endEffect(run: Run, verb: string, target: Target): void {
  const end = target.end!;
  if (verb === 'free') {
    end.freed = true;
    end.debt = open(run, end.debt);
  }
  if (verb === 'seat') {
    end.freed = false;
    end.debt = undefined;
  }
}
