/** Compares the engine with the single-variant oracle: every variant run alone gives the same findings. */

import type { Model } from '../../server/src/model/model';
import type { RawFinding } from '../../server/src/simulate/simulation';
import { parseQuantity } from '../../server/src/units/quantity';
import type { Interval } from '../../server/src/variants/numeric';
import { listVariants, type OracleFinding, runOracle, type Variant } from '../oracle/oracle';
import { checkOne, type EngineConfig } from './engine';

export interface Disagreement {
  readonly variant: Variant;
  /** Found by the engine alone, and by the oracle alone: `rule operation item side`. */
  readonly engine: readonly string[];
  readonly oracle: readonly string[];
}

const line = ({ rule, operation, item, side }: OracleFinding | RawFinding) =>
  `${rule} ${operation} ${item === 'unnamed' ? '' : item} ${side}`.trimEnd();

/** The engine's findings in one variant of the oracle's. */
export function inVariant(model: Model, raw: readonly RawFinding[], variant: Variant): string[] {
  const { world } = model;
  const places = world.variables.map(({ name, values, numeric }) => {
    const written = variant[name];
    if (written === undefined) return 0;
    const exact = values.indexOf(written);
    if (exact >= 0) return exact;
    const measure = numeric === undefined ? null : parseQuantity(written, numeric.dimension);
    const figure = measure?.ok ? measure.quantity.nominal : Number.NaN;
    const place = numeric?.intervals.findIndex((interval) => holds(interval, figure)) ?? -1;
    if (place < 0) throw new Error(`the engine has no ${name}: ${written} (${values.join(', ')})`);
    return place;
  });
  const found = raw.filter(({ set }) => world.evaluate(set, places) === 1).map(line);
  return [...new Set(found)].sort();
}

function holds({ low, high, lowOpen, highOpen }: Interval, figure: number): boolean {
  return (lowOpen ? figure > low : figure >= low) && (highOpen ? figure < high : figure <= high);
}

/** The first variants in which the two differ, at most `most`; of many variants only `atMost` are asked, evenly spread. */
export async function compare(
  files: Record<string, string>,
  guide: string,
  packs: Record<string, string>,
  config: EngineConfig = {},
  most = 3,
  atMost = Number.POSITIVE_INFINITY,
): Promise<{ variants: number; findings: number; disagreements: Disagreement[] }> {
  const { check, model } = await checkOne(files, guide, config);
  const disagreements: Disagreement[] = [];
  const all = listVariants(files, guide);
  const asked = Math.min(all.length, atMost);
  const variants = Array.from({ length: asked }, (_, at) => all[Math.floor((at * all.length) / asked)]!);
  let findings = 0;
  for (const variant of variants) {
    const engine = inVariant(model, check.raw, variant);
    const oracle = [...new Set(runOracle(files, guide, packs, variant, config as never).map(line))].sort();
    findings += oracle.length;
    const left = engine.filter((one) => !oracle.includes(one));
    const right = oracle.filter((one) => !engine.includes(one));
    if (left.length + right.length === 0) continue;
    disagreements.push({ variant, engine: left, oracle: right });
    if (disagreements.length >= most) break;
  }
  return { variants: variants.length, findings, disagreements };
}
