/** The rules in force: all packs, with what the configuration says of them. */

import type { Harm, Severity } from '../findings/finding';
import type { OpenDocument } from '../schema/document';
import type { Watcher } from '../simulate/watcher';
import { Watchers } from '../simulate/watchers';
import { BUILTINS } from './builtin/registry';
import { watcherOf } from './families';
import { type Rule, rulesOf } from './rule';

/** What `kitproof.yaml` may say of a rule. */
export interface RuleSetting {
  readonly on: boolean;
  readonly severity: Severity | null;
  readonly harm: Harm | null;
}

export interface RuleConfiguration {
  readonly rules: ReadonlyMap<string, RuleSetting>;
  readonly strictLoosening: boolean;
}

export const DEFAULTS: RuleConfiguration = { rules: new Map(), strictLoosening: false };

export interface Rulebook {
  /** Every rule of every pack by id, with overridden harm and severity. */
  readonly rules: ReadonlyMap<string, Rule>;
  /** Ids of the rules that are on. */
  readonly on: ReadonlySet<string>;
  /** Those that look on while a guide runs. */
  readonly watchers: Watchers;
}

/**
 * Puts the rulebook together. Of rules with one id the first counts, unless a later one says that it `overrides` it; where
 * that one does not say whether it is core, it is so as the one before was.
 */
export function makeRulebook(
  packs: readonly OpenDocument[],
  configuration: RuleConfiguration = DEFAULTS,
): Rulebook {
  const rules = new Map<string, Rule>();
  for (const pack of packs)
    for (const rule of rulesOf(pack)) {
      const before = rules.get(rule.id);
      if (before !== undefined && !rule.overrides) continue;
      const setting = configuration.rules.get(rule.id);
      rules.set(rule.id, {
        ...rule,
        core: rule.saysCore ? rule.core : (before?.core ?? false),
        harm: setting?.harm ?? rule.harm,
        severity: setting?.severity ?? null,
      });
    }
  const on = new Set<string>();
  for (const { id, core } of rules.values()) if (configuration.rules.get(id)?.on ?? core) on.add(id);
  const watchers: Watcher[] = [];
  for (const builtin of BUILTINS) {
    const rule = rules.get(builtin.name);
    if (rule?.family !== 'built-in' || !on.has(rule.id)) continue;
    const settings = {
      strictLoosening: configuration.strictLoosening,
      parameter: (name: string) => rule.parameters.get(name),
    };
    watchers.push({ rule: rule.id, ...builtin.watch(settings) });
  }
  for (const rule of rules.values()) {
    if (!on.has(rule.id)) continue;
    const watcher = watcherOf(rule);
    if (watcher !== null) watchers.push(watcher);
  }
  return { rules, on, watchers: new Watchers(watchers) };
}
