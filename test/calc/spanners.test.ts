import { describe, expect, it } from 'vitest';
import { bearingDiameter, socketKeyFor, spannerFor, spannersFor } from '../../server/src/calc/spanners';
import { thread } from './threads-of';

describe('hexagons and keys', () => {
  // ISO 272: SEEN in FreeCAD's data of ISO 4032, 8765 and 8676, save that its nut row for M14 says 22 where its bolt row says 21, as ISO
  // 4032 does. Old series: M10, M12, M14 SEEN in two makers' tables. Keys of ISO 4762: SEEN there (s_mean), M18 from MEMORY.
  it.each([
    ['M6', 10, 10, 5],
    ['M8', 13, 13, 6],
    ['M10', 16, 17, 8],
    ['M12', 18, 19, 10],
    ['M14', 21, 22, 12],
    ['M16', 24, 24, 14],
    ['M18', 27, 27, 14],
    ['M20', 30, 30, 17],
  ])('%s takes %d, in the old series %d, a key of %d', (name, iso, din, key) => {
    const of = thread(name);
    expect(spannerFor(of, 'iso')?.size).toBe(iso);
    expect(spannerFor(of, 'din')?.size).toBe(din);
    expect(spannerFor(of, 'inch')).toBeUndefined();
    expect(socketKeyFor(of)).toBe(key);
  });

  // ASME B18.2.1: SEEN in FreeCAD's data, 9/16 from MEMORY.
  it.each([
    ['1/4-20', '7/16 in', 0.4375],
    ['5/16-18', '1/2 in', 0.5],
    ['3/8-16', '9/16 in', 0.5625],
    ['7/16-14', '5/8 in', 0.625],
    ['1/2-13', '3/4 in', 0.75],
    ['9/16-12', '13/16 in', 0.8125],
    ['5/8-11', '15/16 in', 0.9375],
    ['3/4-10', '1-1/8 in', 1.125],
  ])('%s takes %s', (name, marked, inches) => {
    const [spanner] = spannersFor(thread(name));
    expect(spanner).toMatchObject({ marked, standard: 'inch' });
    expect(spanner!.size / 25.4).toBeCloseTo(inches, 6);
    expect(socketKeyFor(thread(name))).toBeUndefined();
  });

  it('does not depend on the pitch, and says nothing of what no standard has', () => {
    expect(spannersFor(thread('M12x1.25'))).toEqual(spannersFor(thread('M12')));
    expect(spannersFor(thread('M9x1'))).toEqual([]);
    expect(spannersFor(thread('#10-24'))).toEqual([]);
  });

  // The dw with which the published torque table was recomputed (vdi2230_fine_published_vs_formula.csv, RUN); M6 from MEMORY of ISO 4014.
  it.each([
    [10, 8.9],
    [13, 11.6],
    [16, 14.6],
    [18, 16.6],
    [21, 19.6],
    [24, 22.5],
    [30, 28.2],
  ])('a hexagon of %d mm bears on %d mm at least', (flats, diameter) => {
    expect(bearingDiameter(flats)).toBeCloseTo(diameter, 1);
  });
});
