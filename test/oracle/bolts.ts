// Figures of bolts, nuts and holes, worked out apart from printed tables: metric threads alone, all that samples and random
// projects have. Sources: ISO 898-1 (proof, yield), ISO 273 (holes), ISO 4014 (least bearing diameters, from memory).
import { figure, parseQuantity } from './quantity.ts';
import { text, texts } from './raw.ts';
import { found, namedJoint, type Run } from './run.ts';
import type { Hole, Joint } from './things.ts';

// Diameter: coarse pitch, bearing diameter, holes fine, medium, coarse.
const SIZES: Record<number, [pitch: number, bears: number, fine: number, medium: number, coarse: number]> = {
  6: [1, 8.88, 6.4, 6.6, 7],
  8: [1.25, 11.63, 8.4, 9, 10],
  10: [1.5, 14.63, 10.5, 11, 12],
  12: [1.75, 16.63, 13, 13.5, 14.5],
  14: [2, 19.64, 15, 15.5, 16.5],
  16: [2, 22.49, 17, 17.5, 18.5],
  18: [2.5, 25.34, 19, 20, 21],
  20: [2.5, 28.19, 21, 22, 24],
};
const STRENGTHS: Record<string, [proof: number, yields: number]> = {
  '8.8': [580, 640],
  '10.9': [830, 940],
  '12.9': [970, 1100],
};
const NEWTON_METRES: Record<string, number> = {
  lbf·ft: 1.3558179,
  lbf·in: 0.1129848,
  N·m: 1,
};

// What class 6H allows the crest of a nut, mm, by pitch (ISO 965-1, from memory).
const CRESTS: Record<number, number> = { 1: 0.236, 1.25: 0.265, 1.5: 0.3, 1.75: 0.335, 2: 0.375, 2.5: 0.45 };

interface Bolt {
  d: number;
  pitch: number;
  grade: string;
  turn(tension: number, friction: number): number; // N·m
  proof: number; // N
  low: number; // of what is usual, N·m
  high: number;
  most: number; // friction
}

function metric(thread: unknown): { d: number; pitch: number } | undefined {
  const read = /^M(\d+)(?:x(\d+(?:\.\d+)?))?$/.exec(text(thread) ?? '');
  if (!read) return undefined;
  const d = Number(read[1]);
  const size = SIZES[d];
  return size && { d, pitch: read[2] === undefined ? size[0] : Number(read[2]) };
}

// Hardware for the joint as a whole or for one of its pieces.
function hardwareFor(run: Run, ...names: string[]) {
  return Object.values(run.world.hardware).find((body) => texts(body.for).some((one) => names.includes(one)));
}

function boltOf(run: Run, joint: Joint): Bolt | undefined {
  const box = hardwareFor(run, joint.part.name, joint.item, `${joint.item}.bolt`);
  const thread = metric(box?.thread ?? joint.body.thread);
  const grade = text(box ? box.class : joint.body.class) ?? '';
  const strength = STRENGTHS[grade];
  if (!thread || !strength) return undefined;
  const { d, pitch } = thread;
  const thick = grade === '8.8' && d > 16;
  const [proofStress, yields] = thick ? [600, 660] : strength;
  const [, bears, , medium] = SIZES[d]!;
  const flank = d - 0.6495 * pitch;
  const root = d - 1.2269 * pitch;
  const area = (Math.PI / 4) * ((flank + root) / 2) ** 2;
  const [least, most] = joint.body.lubricated === true ? [0.08, 0.12] : [0.1, 0.16];
  const turn = (tension: number, friction: number) =>
    (tension * (0.159 * pitch + 0.577 * friction * flank + (friction * (bears + medium)) / 4)) / 1000;
  const proof = proofStress * area;
  const mean = (flank + root) / 2;
  const twist = ((1.5 * flank) / mean) * (pitch / (Math.PI * flank) + 1.155 * most);
  const pull = (0.9 * yields * area) / Math.sqrt(1 + 3 * twist * twist);
  return { d, pitch, grade, turn, proof, low: turn(0.75 * proof, least), high: turn(pull, most), most };
}

/** What a torque does to the bolt, and whether nut and thread bear it. */
export function judgeBolt(run: Run, joint: Joint, written: unknown, data: unknown, differs: boolean): void {
  const here = namedJoint(joint);
  const own = (name: string) => hardwareFor(run, `${joint.item}.${name}`)?.thread;
  const whole = hardwareFor(run, joint.part.name, joint.item, `${joint.item}.bolt`);
  const screwed = metric(whole?.thread ?? joint.body.thread);
  const into = metric(own('nut') ?? (hardwareFor(run, `${joint.item}.bolt`) ? joint.body.thread : undefined));
  if (screwed && into && (screwed.d !== into.d || screwed.pitch !== into.pitch))
    found(run, 'thread-differs', here);
  const bolt = boltOf(run, joint);
  if (!bolt) return;
  const said = written === undefined ? data : written;
  const torque = parseQuantity(said);
  const turnsOn = run.raw.then !== undefined || joint.body.then !== undefined || joint.body.stretch === true;
  if (torque?.dimension === 'torque' && !turnsOn && !differs) {
    const past = torque.high > bolt.turn(bolt.proof, bolt.most);
    const under = torque.low < bolt.low / 2;
    const sense =
      !text(said)!.includes('(') && (past || under) ? otherUnit(bolt, text(said)!, torque) : false;
    if (sense) found(run, 'torque-unit-meant', here);
    else if (past) found(run, 'bolt-past-proof', here);
    else if (under && (joint.body.structural ?? joint.part.body.structural) === true)
      found(run, 'torque-far-under', here);
  }
  const nut = text(hardwareFor(run, `${joint.item}.nut`)?.class ?? joint.body['nut-class']);
  const thin = nut?.startsWith('0') === true && torque?.dimension === 'torque' && torque.low >= bolt.low;
  const weaker = nut?.startsWith('0') === false && Number(nut) < Number.parseInt(bolt.grade, 10);
  if (nut !== undefined && /^\d+$/.test(nut) && (thin || weaker)) found(run, 'nut-weaker', here);
  const depth = parseQuantity(joint.body.engagement)?.high;
  const hard = bolt.grade === '12.9';
  const times = { steel: hard ? 1.25 : 1, 'cast-iron': 1.5, aluminium: hard ? 2.5 : 2 }[
    text(joint.body.into) as 'steel'
  ];
  const share = torque?.dimension === 'torque' ? Math.min(1, torque.high / bolt.low) : 1;
  if (depth !== undefined && times !== undefined && depth < 0.75 * share * times * bolt.d)
    found(run, 'thread-too-short', here);
}

// Whether the number makes sense in another unit.
function otherUnit(bolt: Bolt, written: string, { low, high }: { low: number; high: number }): boolean {
  const own = /kgf/i.test(written)
    ? 'kgf·m'
    : /in/i.test(written)
      ? 'lbf·in'
      : /(ft|lb)/i.test(written)
        ? 'lbf·ft'
        : 'N·m';
  return Object.entries(NEWTON_METRES).some(([unit, size]) => {
    const times = size / (own === 'kgf·m' ? 9.80665 : NEWTON_METRES[own]!);
    return unit !== own && low * times >= 0.8 * bolt.low && high * times <= bolt.high;
  });
}

/** Whether a hole takes the bolt or the tap that it is for. */
export function judgeHole(run: Run, hole: Hole, body: Record<string, unknown>): void {
  const here = { item: `${hole.part.name}.${hole.name}`, side: hole.part.label };
  const to = figure(run.raw.to, 'length');
  if (to !== undefined && hole.size !== undefined && to < hole.size - 0.5) return;
  const size = to ?? hole.size;
  if (size === undefined) return;
  const bolt = metric(body.bolt);
  if (bolt) {
    const [, , fine, , coarse] = SIZES[bolt.d]!;
    if (size < bolt.d) found(run, 'hole-too-small', here);
    else if (size < fine - 0.05) found(run, 'hole-close-fit', here);
    else if (size > coarse + 0.05) found(run, 'hole-too-wide', here);
  }
  const tap = metric(body.tap);
  if (tap) {
    const crest = tap.d - 1.0825 * tap.pitch;
    const cut = size >= crest - 0.1 && size <= crest + (CRESTS[tap.pitch] ?? 0) + 0.05;
    const formed = size >= tap.d - 0.55 * tap.pitch && size <= tap.d - 0.42 * tap.pitch;
    if (!cut && !formed) found(run, 'tap-drill-wrong', here);
  }
}
