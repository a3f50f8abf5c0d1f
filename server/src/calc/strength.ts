/**
 * What a bolt of a class or grade bears, the nut that goes with it, and how far it must be screwed in.
 *
 * Stresses in MPa, forces in N, lengths in mm. Classes by ISO 898-1 for metric threads, grades by SAE J429 for unified ones; at
 * room temperature, plain steel, no plating, no stretch bolts. What the maker of the vehicle or kit says comes first.
 */

import { INCH_MM, POUND_FORCE_N } from '../units/table';
import { stressArea, type Thread } from './threads';

const KSI_MPA = 6.894757293168361;

export type GradeName =
  | '4.6'
  | '4.8'
  | '5.6'
  | '5.8'
  | '6.8'
  | '8.8'
  | '9.8'
  | '10.9'
  | '12.9'
  | 'grade 2'
  | 'grade 5'
  | 'grade 8';

/** A class or grade on one thread: proof, yield and tensile strength in MPa. */
export interface Strength {
  readonly grade: GradeName;
  readonly standard: string;
  readonly proof: number;
  readonly yields: number;
  readonly tensile: number;
}

export type StrengthResult =
  | { readonly ok: true; readonly strength: Strength }
  | { readonly ok: false; readonly message: string };

const ISO = 'ISO 898-1';
const SAE = 'SAE J429';

/** Every class and grade that there are figures for. */
export const gradeNames: readonly GradeName[] = [
  '4.6',
  '4.8',
  '5.6',
  '5.8',
  '6.8',
  '8.8',
  '9.8',
  '10.9',
  '12.9',
  'grade 2',
  'grade 5',
  'grade 8',
];

/** Reads `8.8`, `class 10.9`, `grade 5`, `G8`, `5`, `SAE 8`; undefined where there are no figures for it. */
export function parseGrade(text: string): GradeName | undefined {
  const key = text
    .trim()
    .toLowerCase()
    .replace(/^(?:property )?class ?/, '');
  const named = gradeNames.find((name) => name === key);
  if (named !== undefined) return named;
  const figure = key.replace(/^(?:sae )?(?:grade|gr\.?|g)? ?/, '');
  return gradeNames.find((name) => name === `grade ${figure}`);
}

/**
 * The strength of a class or grade on a thread. ISO 898-1: 8.8 up to 16 mm 580/640/800, above 600/660/830; 10.9 830/940/1040;
 * 12.9 970/1100/1220 (580 and the tensile strengths from memory). SAE J429, in ksi: grade 2 to 3/4 in 55/57/74 (57, 74 from
 * memory), grade 5 to 1 in 85/92/120, grade 8 120/130/150.
 */
export function strengthOf(grade: GradeName, thread: Thread): StrengthResult {
  const metric = !grade.startsWith('grade');
  if (metric !== (thread.system === 'metric'))
    return {
      ok: false,
      message: metric
        ? `Class ${grade} belongs to metric threads; bolts with ${thread.name} have grades, such as grade 8.`
        : `${grade[0]!.toUpperCase()}${grade.slice(1)} belongs to inch threads; bolts with ${thread.name} have classes, such as 10.9.`,
    };
  const found = metric ? classOn(grade, thread.diameter) : inchGrade(grade, thread.diameter / INCH_MM);
  if (found === undefined)
    return { ok: false, message: `There are no figures here for ${grade} on ${thread.name}.` };
  const [proof, yields, tensile] = found;
  return { ok: true, strength: { grade, standard: metric ? ISO : SAE, proof, yields, tensile } };
}

type Stresses = readonly [proof: number, yields: number, tensile: number];

/** ISO 898-1; 4.6 to 6.8 and 9.8 from memory. */
const isoStress: ReadonlyMap<GradeName, Stresses> = new Map([
  ['4.6', [225, 240, 400]],
  ['4.8', [310, 340, 420]],
  ['5.6', [280, 300, 500]],
  ['5.8', [380, 420, 520]],
  ['6.8', [440, 480, 600]],
  ['9.8', [650, 720, 900]],
  ['10.9', [830, 940, 1040]],
  ['12.9', [970, 1100, 1220]],
]);

function classOn(grade: GradeName, diameter: number): Stresses | undefined {
  if (diameter < 1.6 || diameter > 39) return undefined;
  if (grade === '8.8') return diameter <= 16 ? [580, 640, 800] : [600, 660, 830];
  // 9.8 goes up to 16 mm.
  return grade === '9.8' && diameter > 16 ? undefined : isoStress.get(grade);
}

function inchGrade(grade: GradeName, inches: number): Stresses | undefined {
  if (inches < 0.2499 || inches > (grade === 'grade 2' ? 0.7501 : 1.0001)) return undefined;
  const ksi: Stresses =
    grade === 'grade 2' ? [55, 57, 74] : grade === 'grade 5' ? [85, 92, 120] : [120, 130, 150];
  return [ksi[0] * KSI_MPA, ksi[1] * KSI_MPA, ksi[2] * KSI_MPA];
}

/** Proof loads as ISO 898-1 prints them for coarse threads, N, for 8.8, 10.9, 12.9. They are not always the rounded product. */
const isoProof: ReadonlyMap<string, readonly number[]> = new Map([
  ['M6', [11600, 16700, 19500]],
  ['M8', [21200, 30400, 35500]],
  ['M10', [33700, 48100, 56300]],
  ['M12', [48900, 70000, 81800]],
  ['M14', [66700, 95500, 112000]],
  ['M16', [91000, 130000, 152000]],
  ['M18', [115000, 159000, 186000]],
  ['M20', [147000, 203000, 238000]],
]);

/** Proof loads as SAE J429 prints them, lbf, for grades 5 and 8; rows that could not be read are left to the product. */
const saeProof: ReadonlyMap<string, readonly number[]> = new Map([
  ['1/4-20 UNC', [2700, 3800]],
  ['5/16-18 UNC', [4450, 6300]],
  ['3/8-16 UNC', [6600, 9300]],
  ['7/16-14 UNC', [9050, 12800]],
  ['9/16-12 UNC', [15500, 21800]],
  ['5/8-11 UNC', [19200, 27100]],
  ['3/4-10 UNC', [28400, 40100]],
  ['1/4-28 UNF', [3100, 4350]],
  ['3/8-24 UNF', [7450, 10500]],
]);

export interface ProofLoad {
  /** N. */
  readonly load: number;
  /** `printed` where the standard's table has it, else stress area × proof strength. */
  readonly from: 'printed' | 'product';
}

/** The tension that a bolt bears without a lasting stretch, N. */
export function proofLoad(thread: Thread, { grade, proof }: Strength): ProofLoad {
  const printed =
    thread.system === 'metric'
      ? isoProof.get(thread.name)?.[['8.8', '10.9', '12.9'].indexOf(grade)]
      : saeProof.get(thread.name)?.[['grade 5', 'grade 8'].indexOf(grade)];
  if (printed === undefined) return { load: stressArea(thread) * proof, from: 'product' };
  return { load: thread.system === 'metric' ? printed : printed * POUND_FORCE_N, from: 'printed' };
}

export type NutVerdict = 'enough' | 'weaker' | 'thin' | 'unknown';

/**
 * Whether a nut bears what its bolt does. ISO 898-2: a nut of class 8 goes up to bolts of 8.8, 10 up to 10.9, 12 up to 12.9; `04` and
 * `05` are thin nuts, which strip first. For grades SAE J995 pairs equal numbers. A nut of a higher class is always enough.
 * @param nut as it is marked: `8`, `10`, `05`, `grade 5`.
 */
export function nutFor(grade: GradeName, nut: string): NutVerdict {
  const marked = nut
    .trim()
    .toLowerCase()
    .replace(/^(?:property )?(?:class|grade) ?/, '');
  if (!/^\d{1,2}$/.test(marked)) return 'unknown';
  if (marked.startsWith('0')) return 'thin';
  const wanted = Number.parseInt(grade.replace('grade ', ''), 10);
  return Number(marked) >= wanted ? 'enough' : 'weaker';
}

/** What a bolt is screwed into. */
export type Material = 'steel' | 'cast-iron' | 'aluminium';

/**
 * The least length of thread that should bear, mm; common practice: in steel one diameter, 1.25 for class 12.9; in cast iron one and a half;
 * in aluminium two, two and a half for 12.9. A standard nut is right by itself, with the bolt's end level with it at least, better one or two threads out.
 */
export function leastEngagement(thread: Thread, grade: GradeName, material: Material): number {
  const factor = {
    steel: grade === '12.9' ? 1.25 : 1,
    'cast-iron': 1.5,
    aluminium: grade === '12.9' ? 2.5 : 2,
  }[material];
  return factor * thread.diameter;
}
