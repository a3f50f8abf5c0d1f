import { type Rule, rulesOf } from '../rules/rule';
import { type OpenDocument, openDocument } from '../schema/document';
import { type Configuration, defaultConfiguration } from './configuration';
import type { Document } from './document';
import { judge } from './engine';
import {
  type Example,
  examplesOf,
  type Trial,
  type TrialGround,
  type TrialOptions,
  tryExamples,
} from './examples';
import { isStandardPack, standardPacks, wholeStandardPacks } from './packs';
import type { Project, RulesInForce } from './project';

/** A rule, whether it is checked, and what says so. */
export interface RuleInForce {
  readonly rule: Rule;
  readonly on: boolean;
  /** The configuration that says something of it; null where it is as its pack has it. */
  readonly set: Configuration | null;
}

/** All rules in force, pack by pack in their order; one that overrides another stands in its own pack. */
export function effectiveRules({ rulebook, configuration, packs }: RulesInForce): RuleInForce[] {
  const order = new Map(packs.map((pack, index) => [pack.uri, index]));
  const place = ({ rule }: RuleInForce) => order.get(rule.place.uri) ?? 0;
  return [...rulebook.rules.values()]
    .map((rule) => ({
      rule,
      on: rulebook.on.has(rule.id),
      set: configuration.rules.has(rule.id) ? configuration : null,
    }))
    .sort((a, b) => place(a) - place(b) || a.rule.place.span.start - b.rule.place.span.start);
}

/** The examples of a rule, in their pack's order. */
export async function examplesOfRule(
  rule: Rule,
  packs: readonly OpenDocument[],
): Promise<readonly Example[]> {
  const { uri } = rule.place;
  const pack = isStandardPack(uri)
    ? (await wholeStandardPacks()).find((one) => one.uri === uri)
    : packs.find((one) => one.uri === uri);
  if (pack === undefined) return [];
  const opened = 'reading' in pack ? openDocument(pack.uri, pack.reading, { source: pack.text }) : pack;
  return examplesOf(opened).get(rule.id) ?? [];
}

/** What came of the examples of one pack, or of all standard ones. */
export interface PackTrial {
  /** The house's pack; null for the standard packs together. */
  readonly pack: Document | null;
  /** The documents that the examples are written in, by name. */
  readonly documents: ReadonlyMap<string, Document>;
  readonly rules: number;
  readonly trials: readonly Trial[];
  /** Rules that lack an example: `good`, `bad`, or both. */
  readonly lacking: readonly { readonly rule: Rule; readonly what: readonly string[] }[];
  /** Mistakes in the pack itself, for which some of its rules may not count. */
  readonly mistakes: number;
}

/**
 * Runs the examples of packs, each pack under the configuration above it; null among the packs stands for the standard
 * ones, which are tried as they are without any configuration.
 */
export async function tryPacks(
  project: Project,
  packs: readonly (Document | null)[],
  options: TrialOptions = {},
): Promise<readonly PackTrial[]> {
  const results: PackTrial[] = [];
  for (const pack of packs) {
    const ground = pack === null ? await standardGround() : await groundOf(project, pack);
    const tested = pack === null ? ground.packs : [pack];
    const opened = tested.map((one) => openDocument(one.uri, one.reading, { source: one.text }));
    const examples = opened.flatMap((one) => [...examplesOf(one).values()].flat());
    const trials = await tryExamples(ground, examples, options);
    if (trials === null) break;
    results.push({
      pack,
      documents: new Map(tested.map((one) => [one.uri, one])),
      rules: opened.reduce((count, one) => count + rulesOf(one).length, 0),
      trials,
      lacking: opened.flatMap(lackingIn),
      mistakes: pack === null ? 0 : await mistakesIn(project, pack),
    });
  }
  return results;
}

/** How many findings a check tells of in a pack, hints apart. */
async function mistakesIn(project: Project, pack: Document): Promise<number> {
  const { opened, library, rulebook } = await project.closureOf(pack);
  const findings = [...opened(pack).findings, ...judge(opened(pack), library, rulebook)];
  return findings.filter(({ severity }) => severity !== 'info').length;
}

async function standardGround(): Promise<TrialGround> {
  return { packs: await wholeStandardPacks(), housePacks: [], configuration: defaultConfiguration };
}

async function groundOf(project: Project, pack: Document): Promise<TrialGround> {
  const { housePacks, configuration } = await project.rulesAt(pack.uri);
  const own = housePacks.includes(pack) ? housePacks : [...housePacks, pack];
  return { packs: [...standardPacks(), ...own], housePacks: own, configuration };
}

function lackingIn(pack: OpenDocument): PackTrial['lacking'] {
  const examples = examplesOf(pack);
  return rulesOf(pack).flatMap((rule) => {
    const there = new Set(examples.get(rule.id)?.map(({ which }) => which));
    const what = (['good', 'bad'] as const).filter((which) => !there.has(which));
    return what.length === 0 ? [] : [{ rule, what }];
  });
}
