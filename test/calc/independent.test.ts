import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import { proofLoad } from '../../server/src/calc/strength';
import { stressArea } from '../../server/src/calc/threads';
import { torqueByNutFactor } from '../../server/src/calc/tightening';
import { changeOfTyre } from '../../server/src/calc/tyres';
import { settingFor } from '../../server/src/calc/wrench';
import { parseTyre } from '../../server/src/units/tyre';
import { strength, thread } from './threads-of';

/** The same sums done with units by a library that knows nothing of bolts or tyres. */
interface Amount {
  mul(other: Amount | number): Amount;
  div(other: Amount | number): Amount;
  add(other: Amount): Amount;
  to(unit: string): Amount;
  getValue(): number;
}
const amount: (text: string) => Amount = createRequire(import.meta.url)('unitmath');

it('gives the same proof load and the same torque from inches and ksi', () => {
  for (const [name, inches, perInch] of [
    ['1/2-13', 0.5, 13],
    ['5/16-24', 0.3125, 24],
    ['3/4-16', 0.75, 16],
  ] as const) {
    const of = thread(name);
    const across = amount(`${inches - 0.974279 / perInch} in`);
    const area = across.mul(across).mul(Math.PI / 4);
    expect(area.to('mm^2').getValue() / stressArea(of)).toBeCloseTo(1, 6);
    const load = area.mul(amount('120000 psi'));
    const { load: ours, from } = proofLoad(of, strength('grade 8', of));
    expect(from).toBe('product');
    expect(load.to('N').getValue() / ours).toBeCloseTo(1, 6);
    const torque = load.mul(0.75 * 0.2).mul(amount(`${inches} in`));
    expect(torque.to('N m').getValue() / torqueByNutFactor(0.2, of, 0.75 * ours)).toBeCloseTo(1, 6);
  }
});

it('gives the same setting of a wrench, and the same tyre', () => {
  const arm = amount('400 mm').div(amount('400 mm').add(amount('60 mm')));
  const setting = arm.mul(amount('90 N m')).to('N m').getValue();
  expect(settingFor(90, { length: 400, extension: 60, angle: 0 })).toBeCloseTo(setting, 9);
  const tall = (width: number, aspect: number, rim: number) =>
    amount(`${rim} in`)
      .add(amount(`${(2 * width * aspect) / 100} mm`))
      .to('mm')
      .getValue();
  const from = parseTyre('205/55R16');
  const to = parseTyre('225/60R16');
  if (!from.ok || !to.ok) throw new Error('not read');
  expect(from.tyre.diameter).toBeCloseTo(tall(205, 55, 16), 9);
  expect(changeOfTyre(from.tyre, to.tyre).trueSpeed).toBeCloseTo(tall(225, 60, 16) / tall(205, 55, 16), 12);
});
