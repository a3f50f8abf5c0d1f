import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type JointData, type KnownJoint, knownJoint } from '../../server/src/calc/joint';
import { parseQuantity } from '../../server/src/units/quantity';

function known(data: JointData): KnownJoint {
  const result = knownJoint(data);
  if (!result.ok) throw new Error(`${JSON.stringify(data)}: ${result.gap}`);
  return result.joint;
}

describe('a joint', () => {
  // 51, 75, 87 N·m at 0.12 in the published fine-thread table of VDI 2230 (SEEN at mastik.pt).
  it.each([
    ['8.8', 51],
    ['10.9', 75],
    ['12.9', 87],
  ])('of M10x1.25 in %s is expected about the published torque', (grade, torque) => {
    const { expected, judge } = known({ thread: 'M10x1.25', class: grade });
    expect(expected.low).toBeLessThan(torque);
    expect(expected.high).toBeGreaterThan(torque);
    expect(judge(torque, torque)).toMatchObject({ farUnder: false });
    expect(judge(torque, torque).pastProof).not.toBe('surely');
  });

  it('is judged by the high end of a range for proof, by the low end for being far under', () => {
    const { judge } = known({ thread: 'M10x1.25', class: '8.8' });
    expect(judge(45, 95)).toMatchObject({ pastProof: 'surely', farUnder: false });
    expect(judge(10, 45)).toMatchObject({ pastProof: 'no', farUnder: true });
  });

  it('that is stretched on purpose is never past proof, and oil brings the proof load nearer', () => {
    expect(known({ thread: 'M10x1.25', class: '8.8', stretch: true }).judge(95, 95).pastProof).toBe('no');
    expect(known({ thread: 'M10x1.25', class: '8.8' }).judge(60, 60).pastProof).toBe('possibly');
    expect(known({ thread: 'M10x1.25', class: '8.8', lubricated: true }).judge(60, 60).pastProof).toBe(
      'surely',
    );
  });

  // By hand: M12 of 10.9 wants some 87 to 149 N·m, that is 64 to 110 lbf·ft; M6 of 8.8 some 7 to 12 N·m, 62 to 106 lbf·in.
  it.each([
    ['M12', '10.9', '80 lbf·in', 'lbf·ft'],
    ['M12', '10.9', '75-85 in-lb', 'lbf·ft'],
    ['M6', '8.8', '80 lbf·ft', 'lbf·in'],
    ['M12', '10.9', '80 lbf·ft', null],
    ['M12', '10.9', '960 lbf·in', null],
    ['M12', '10.9', '110 N·m', null],
    ['M12', '10.9', '3 N·m', null],
  ])('of %s in %s written with %s is meant in %s', (name, grade, text, meant) => {
    const read = parseQuantity(text, 'torque');
    if (!read.ok) throw new Error(read.problem.message);
    const { low, high, symbol } = read.quantity;
    expect(known({ thread: name, class: grade }).meantUnit(low, high, symbol)).toBe(meant);
  });

  it('knows its nut', () => {
    expect(known({ thread: 'M12x1.75', class: '10.9' }).nut('8')).toBe('weaker');
    expect(known({ thread: 'M12x1.75', class: '10.9' }).nut('10')).toBe('enough');
  });

  it.each<[JointData, string]>([
    [{ class: '8.8' }, 'thread'],
    [{ thread: 'M12x', class: '8.8' }, 'thread'],
    [{ thread: 'M12' }, 'class'],
    [{ thread: 'M12', class: '9.9' }, 'class'],
    [{ thread: 'M12', class: 'grade 8' }, 'figures'],
    [{ thread: 'M9x1', class: '8.8' }, 'figures'],
  ])('%j says that what is missing is the %s', (data, gap) => {
    expect(knownJoint(data)).toEqual({ ok: false, gap });
  });
});

describe('the samples', () => {
  interface Written {
    thread?: string;
    class?: string;
    torque?: string;
    structural?: boolean;
    lubricated?: boolean;
    stretch?: boolean;
  }
  const root = join(import.meta.dirname, '../../samples');
  const joints: [string, Written][] = [];
  const walk = (value: unknown, path: string): void => {
    if (typeof value !== 'object' || value === null) return;
    const written = value as Written;
    if (typeof written.thread === 'string' && typeof written.torque === 'string')
      joints.push([path, written]);
    for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
  };
  for (const name of readdirSync(root, { recursive: true, encoding: 'utf8' }).sort()) {
    if (/\.(vehicle|kit)\.yaml$/.test(name) && !name.includes('faulty'))
      walk(parse(readFileSync(join(root, name), 'utf8')), name);
  }

  it('have joints with a class', () => {
    expect(joints.filter(([, written]) => written.class !== undefined).length).toBeGreaterThan(10);
  });

  it.each(joints)('%s is tightened as its bolt can bear', (_, written) => {
    const torque = parseQuantity(written.torque!, 'torque');
    if (!torque.ok) throw new Error(torque.problem.message);
    const { low, high } = torque.quantity;
    const result = knownJoint(written);
    if (!result.ok) {
      expect(result.gap).toBe('class');
      // Without a class at least the commonest must bear it.
      expect(known({ ...written, class: '8.8' }).judge(low, high).pastProof).not.toBe('surely');
      return;
    }
    const judged = result.joint.judge(low, high);
    expect(judged.pastProof).not.toBe('surely');
    expect(result.joint.meantUnit(low, high, torque.quantity.symbol)).toBe(null);
    if (written.structural === true) expect(judged.farUnder).toBe(false);
  });
});
