// Which rules are on, and how the pack entries read.
import { isMap, map, type Raw, text, texts } from './raw.ts';

export interface OracleConfig {
  rules?: Record<string, unknown>;
  strictLoosening?: boolean;
}

export interface RuleBook {
  strictLoosening: boolean;
  /** The ids under which a built-in rule speaks; its own name where no pack has it. */
  builtInIds: (name: string) => string[];
  /** What the pack entry of a built-in rule says under `with`. */
  parameter: (name: string, key: string) => unknown;
  /** Those of them that watch a verb (in `watch`, or in `later` and what is before it), in the same order. */
  watching: (verb: string) => Raw[];
  /** The rules of the other families that are on, in the order of the packs. */
  families: Raw[];
}

function isOn(rule: Raw, config: OracleConfig): boolean {
  const id = text(rule.id) ?? '';
  const chosen = config.rules?.[id];
  const said = isMap(chosen) ? chosen.on : chosen;
  if (said === undefined) return isMap(chosen) || rule.core === true;
  return said !== 'off' && said !== false;
}

function asksOf(rule: Raw, verb: string): boolean {
  const watched = map(rule.watch).verb;
  const later = map(rule.later);
  if (watched === undefined || texts(watched).includes(verb)) return true;
  return [later.verb, map(later.before).verb].some((one) => texts(one).includes(verb));
}

/** Of rules with one id the first counts, unless a later one `overrides` it; unless it says, it is core as that one was. */
function oneOfEachId(rules: Raw[]): Raw[] {
  const byId = new Map<string, Raw>();
  for (const rule of rules) {
    const id = text(rule.id) ?? '';
    const before = byId.get(id);
    if (before !== undefined && rule.overrides !== true) continue;
    byId.set(id, { ...rule, core: rule.core ?? before?.core });
  }
  return [...byId.values()];
}

export function makeRuleBook(all: Raw[], config: OracleConfig): RuleBook {
  const rules = oneOfEachId(all);
  const families = rules.filter((rule) => rule['built-in'] === undefined && isOn(rule, config));
  const byVerb = new Map<string, Raw[]>();
  return {
    strictLoosening: config.strictLoosening === true,
    builtInIds(name) {
      const entries = rules.filter((rule) => text(rule['built-in']) === name);
      if (entries.length === 0 && rules.some((rule) => text(rule.id) === name)) return [];
      if (entries.length === 0) return isOn({ id: name, core: true }, config) ? [name] : [];
      return entries.filter((rule) => isOn(rule, config)).map((rule) => text(rule.id) ?? name);
    },
    parameter: (name, key) => map(rules.find((rule) => text(rule['built-in']) === name)?.with)[key],
    families,
    watching(verb) {
      const known = byVerb.get(verb) ?? families.filter((rule) => asksOf(rule, verb));
      byVerb.set(verb, known);
      return known;
    },
  };
}
