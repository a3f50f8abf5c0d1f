import { describe, expect, it } from 'vitest';
import {
  type GradeName,
  gradeNames,
  leastEngagement,
  type Material,
  nutFor,
  parseGrade,
  proofLoad,
  strengthOf,
} from '../../server/src/calc/strength';
import { minorDiameter, stressArea } from '../../server/src/calc/threads';
import { strength, thread } from './threads-of';

const POUND_FORCE_N = 4.4482216152605;

/**
 * Proof loads, N, for 8.8, 10.9, 12.9. Coarse: SEEN in optimas and slsbearings, both citing ISO 898-1. Fine: RUN, stress area to three
 * figures times proof strength, the areas from MEMORY.
 */
const ISO_PROOF: readonly (readonly [string, number, number, number, 'SEEN' | 'RUN'])[] = [
  ['M6', 11600, 16700, 19500, 'SEEN'],
  ['M8', 21200, 30400, 35500, 'SEEN'],
  ['M10', 33700, 48100, 56300, 'SEEN'],
  ['M12', 48900, 70000, 81800, 'SEEN'],
  ['M14', 66700, 95500, 112000, 'SEEN'],
  ['M16', 91000, 130000, 152000, 'SEEN'],
  ['M18', 115000, 159000, 186000, 'SEEN'],
  ['M20', 147000, 203000, 238000, 'SEEN'],
  ['M8x1', 22700, 32500, 38000, 'RUN'],
  ['M10x1', 37400, 53500, 62600, 'RUN'],
  ['M10x1.25', 35500, 50800, 59400, 'RUN'],
  ['M12x1.25', 53400, 76400, 89300, 'RUN'],
  ['M12x1.5', 51100, 73100, 85500, 'RUN'],
  ['M14x1.5', 72500, 104000, 121000, 'RUN'],
  ['M16x1.5', 96900, 139000, 162000, 'RUN'],
  ['M18x1.5', 130000, 179000, 210000, 'RUN'],
  ['M20x1.5', 163000, 226000, 264000, 'RUN'],
];

/** Proof loads, lbf, for grades 5 and 8: SEEN in the Everett WA scan of SAE J429, else MEMORY (unreadable there). */
const SAE_PROOF: readonly (readonly [string, number, number, 'SEEN' | 'MEMORY'])[] = [
  ['1/4-20', 2700, 3800, 'SEEN'],
  ['5/16-18', 4450, 6300, 'SEEN'],
  ['3/8-16', 6600, 9300, 'SEEN'],
  ['7/16-14', 9050, 12800, 'SEEN'],
  ['1/2-13', 12100, 17000, 'MEMORY'],
  ['9/16-12', 15500, 21800, 'SEEN'],
  ['5/8-11', 19200, 27100, 'SEEN'],
  ['3/4-10', 28400, 40100, 'SEEN'],
  ['1/4-28', 3100, 4350, 'SEEN'],
  ['5/16-24', 4900, 6950, 'MEMORY'],
  ['3/8-24', 7450, 10500, 'SEEN'],
  ['7/16-20', 10100, 14200, 'MEMORY'],
  ['1/2-20', 13600, 19200, 'MEMORY'],
  ['9/16-18', 17300, 24400, 'MEMORY'],
  ['5/8-18', 21800, 30700, 'MEMORY'],
  ['3/4-16', 31700, 44800, 'MEMORY'],
];

describe('proof loads', () => {
  it.each(ISO_PROOF)('%s bears %d, %d, %d N', (name, ...row) => {
    const status = row.at(-1);
    (['8.8', '10.9', '12.9'] as const).forEach((grade, index) => {
      const of = thread(name);
      const { load, from } = proofLoad(of, strength(grade, of));
      const published = row[index] as number;
      expect(from).toBe(status === 'SEEN' ? 'printed' : 'product');
      if (status === 'SEEN') expect(load).toBe(published);
      expect(Math.abs(load / published - 1)).toBeLessThan(0.01);
      // The table and the product agree, so that neither hides a slip of the other.
      expect(Math.abs((stressArea(of) * strength(grade, of).proof) / published - 1)).toBeLessThan(0.01);
    });
  });

  it.each(SAE_PROOF)('%s bears %d, %d lbf', (name, ...row) => {
    const status = row.at(-1);
    (['grade 5', 'grade 8'] as const).forEach((grade, index) => {
      const of = thread(name);
      const { load, from } = proofLoad(of, strength(grade, of));
      const published = (row[index] as number) * POUND_FORCE_N;
      expect(from).toBe(status === 'SEEN' ? 'printed' : 'product');
      expect(Math.abs(load / published - 1)).toBeLessThan(0.01);
      expect(Math.abs((stressArea(of) * strength(grade, of).proof) / published - 1)).toBeLessThan(0.01);
    });
  });

  // Least tensile loads, N, 8.8, 10.9, 12.9: SEEN in usefastener's copy of the table of EN ISO 898-1.
  it.each([
    ['M6', 16100, 20900, 24500],
    ['M10', 46400, 60300, 70800],
    ['M12', 67400, 87700, 103000],
    ['M20', 203000, 255000, 299000],
  ])('%s breaks at %d, %d, %d N at least', (name, ...loads) => {
    const of = thread(name);
    (['8.8', '10.9', '12.9'] as const).forEach((grade, index) => {
      const breaks = stressArea(of) * strength(grade, of).tensile;
      expect(Math.abs(breaks / loads[index]! - 1)).toBeLessThan(0.01);
    });
  });
});

describe('classes and grades', () => {
  it('are read as they are written', () => {
    for (const text of ['10.9', ' class 10.9', 'property class 10.9']) expect(parseGrade(text)).toBe('10.9');
    for (const text of ['grade 8', 'G8', 'gr. 8', 'SAE grade 8', '8'])
      expect(parseGrade(text)).toBe('grade 8');
    for (const text of ['', '9', 'strong', 'grade', '8.9']) expect(parseGrade(text)).toBeUndefined();
    for (const name of gradeNames) expect(parseGrade(name)).toBe(name);
  });

  it('of the other system are refused, and so are sizes without figures', () => {
    const message = (grade: GradeName, name: string) => {
      const result = strengthOf(grade, thread(name));
      return result.ok ? null : result.message;
    };
    expect(message('grade 8', 'M12')).toBe(
      'Grade 8 belongs to inch threads; bolts with M12 have classes, such as 10.9.',
    );
    expect(message('10.9', '1/2-13')).toBe(
      'Class 10.9 belongs to metric threads; bolts with 1/2-13 UNC have grades, such as grade 8.',
    );
    expect(message('grade 2', '1-8')).toBe('There are no figures here for grade 2 on 1-8 UNC.');
    expect(message('grade 5', '#10-24')).toContain('no figures here');
    expect(message('grade 8', '1/4-20')).toBe(null);
  });

  it('rise in the thick 8.8 and with every class', () => {
    expect(strength('8.8', thread('M16')).proof).toBe(580);
    expect(strength('8.8', thread('M18')).proof).toBe(600);
    for (const name of ['8.8', '10.9', '12.9'] as const) {
      const { proof, yields, tensile } = strength(name, thread('M12'));
      expect(proof).toBeLessThan(yields);
      expect(yields).toBeLessThan(tensile);
    }
  });
});

describe('nuts', () => {
  // Pairs of ISO 898-2: SEEN in torqbolt's copy of its table of combinations.
  it.each([
    ['8.8', '8', 'enough'],
    ['8.8', '10', 'enough'],
    ['8.8', '6', 'weaker'],
    ['10.9', '8', 'weaker'],
    ['10.9', '10', 'enough'],
    ['10.9', 'class 10', 'enough'],
    ['12.9', '10', 'weaker'],
    ['12.9', '12', 'enough'],
    ['8.8', '05', 'thin'],
    ['8.8', 'self-locking', 'unknown'],
    ['grade 8', 'grade 5', 'weaker'],
    ['grade 5', 'grade 8', 'enough'],
  ] as const)('of a %s bolt marked %s: %s', (grade, nut, verdict) => {
    expect(nutFor(grade, nut)).toBe(verdict);
  });
});

describe('least engagement', () => {
  it('is one diameter in steel, more in what is softer', () => {
    const of = thread('M12x1.25');
    expect(leastEngagement(of, '10.9', 'steel')).toBe(12);
    expect(leastEngagement(of, '12.9', 'steel')).toBe(15);
    expect(leastEngagement(of, '8.8', 'cast-iron')).toBe(18);
    expect(leastEngagement(of, '8.8', 'aluminium')).toBe(24);
  });

  // An oracle of its own: the thread that is cut shears at 0.577 of its tensile strength, over 7/8 of its cylinder in the hole and 3/4 in
  // the bolt (basic profile of ISO 68-1). Tensile strengths of the hole, MPa, common for the material.
  it.each<[Material, number]>([
    ['steel', 500],
    ['cast-iron', 250],
    ['aluminium', 250],
  ])('is more than shearing asks for, in %s', (material, tensile) => {
    for (const name of ['M6', 'M8', 'M10x1.25', 'M12', 'M16', 'M20x1.5'])
      for (const grade of ['8.8', '10.9', '12.9'] as const) {
        const of = thread(name);
        const breaks = stressArea(of) * strength(grade, of).tensile;
        const inHole = breaks / (0.577 * tensile * Math.PI * of.diameter * 0.875);
        const inBolt = breaks / (0.577 * strength(grade, of).tensile * Math.PI * minorDiameter(of) * 0.75);
        // Grey iron does not yield before it shears, so that all of its tensile strength counts.
        const needed = Math.max(material === 'cast-iron' ? inHole * 0.577 : inHole, inBolt);
        expect(leastEngagement(of, grade, material)).toBeGreaterThan(needed);
      }
  });
});
