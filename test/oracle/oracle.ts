// A plain interpreter of guides for one variant at a time: the second opinion on schemas/semantics.md.
import { combinations, covered, holds, traitValues, type Variable, type Variant } from './condition.ts';
import { layCorners } from './corners.ts';
import { declaredVariables, readDocuments } from './declare.ts';
import { settleLater } from './families.ts';
import { layGiven, readLeaves } from './given.ts';
import { walkGuide } from './implied.ts';
import { narrow, runSection, topPlace } from './order.ts';
import { settle } from './owed.ts';
import { type Packs, readPacks } from './packs.ts';
import { isMap, list, map, texts } from './raw.ts';
import { makeRuleBook, type OracleConfig, type RuleBook } from './rulebook.ts';
import { type Event, newRun, type OracleFinding, type Run } from './run.ts';
import { everyInstance } from './targets.ts';
import { settleTyres } from './tyres.ts';
import { buildWorld } from './world.ts';

export type { Variable, Variant } from './condition.ts';
export type { OracleConfig } from './rulebook.ts';
export type { OracleFinding } from './run.ts';

/**
 * The findings of a guide in one variant.
 * @param files text of every document by its path relative to the guide
 * @param guide the guide's own path
 * @param packs text of every rule pack by name
 */
export function runOracle(
  files: Record<string, string>,
  guide: string,
  packs: Record<string, string>,
  variant: Variant,
  config: OracleConfig = {},
): OracleFinding[] {
  const documents = readDocuments(files, guide);
  if (!holds(documents.guide.when, variant)) return [];
  const allPacks = readPacks(packs);
  const world = buildWorld(documents, allPacks, variant);
  layCorners(world);
  const run = newRun(world, ruleBook(allPacks, config));
  layGiven(run);
  run.judged = true;
  const sides = narrow(['left', 'right'], documents.guide.side);
  list(documents.guide.sections).forEach((section, index) => {
    if (!isMap(section)) return;
    runSection(run, section, `${index + 1}`, topPlace(documents.guideName, sides));
  });
  run.path = '0';
  settle(run, readLeaves(run));
  settleLater(run, owedDuties(run));
  settleTyres(run);
  return [...run.findings.values()].sort(byPlace);
}

const books = new WeakMap<Packs, WeakMap<OracleConfig, RuleBook>>();

/** The rules in force, put together once for all variants. */
function ruleBook(packs: Packs, config: OracleConfig): RuleBook {
  const known = books.get(packs) ?? new WeakMap<OracleConfig, RuleBook>();
  books.set(packs, known);
  const book = known.get(config) ?? makeRuleBook(packs.rules, config);
  known.set(config, book);
  return book;
}

/** The duties that the guide hands over, as `check` operations at the end. */
function owedDuties(run: Run): Event[] {
  const { guide } = run.world.documents;
  return list(guide.owes).flatMap((entry) => {
    if (!holds(map(entry).when, run.world.variant)) return [];
    return texts(map(entry).check).flatMap((item) => {
      const bound = everyInstance(run.world, item);
      const targets = bound.length > 0 ? bound : [{ what: 'words' as const, item, side: '', key: item }];
      return targets.flatMap((target) =>
        ['check', 'measure'].map((verb) => ({ verb, target, raw: map(entry), path: '0', occurrence: 0 })),
      );
    });
  });
}

function byPlace(one: OracleFinding, other: OracleFinding): number {
  const key = (finding: OracleFinding): string =>
    JSON.stringify([finding.operation, finding.rule, finding.item, finding.side]);
  return key(one) < key(other) ? -1 : key(one) > key(other) ? 1 : 0;
}

/** The variables of a guide with the values that it covers. */
export function listVariables(files: Record<string, string>, guide: string): Variable[] {
  const documents = readDocuments(files, guide);
  const all = [documents.guide, documents.vehicle, ...documents.kits, ...usedGuides(files, guide)];
  const variables: Variable[] = declaredVariables(documents).map(([name, declared]) => ({
    name,
    values: traitValues(declared, all, name).filter((value) => covered(documents.guide.covers, name, value)),
  }));
  const uses = walkGuide(documents);
  for (const id of new Set(uses.optional)) variables.push({ name: `done:${id}`, values: ['yes', 'no'] });
  for (const name of uses.found) variables.push({ name: `found:${name}`, values: ['yes', 'no'] });
  return variables;
}

/** Every variant that the guide covers, one by one. */
export function listVariants(files: Record<string, string>, guide: string): Variant[] {
  return combinations(listVariables(files, guide));
}

/** The other guides among the files, for the thresholds in their conditions. */
function usedGuides(files: Record<string, string>, guide: string) {
  const names = Object.keys(files).filter((name) => name !== guide && name.endsWith('.install.yaml'));
  return names.map((name) => readDocuments(files, name).guide);
}
