import { checkGuide, type GuideCheck } from '../check/check';
import { type Finding, plainFinding } from '../findings/finding';
import type { Model } from '../model/model';
import type { Rulebook } from '../rules/rulebook';
import type { RunObserver } from '../simulate/run';
import type { Watcher } from '../simulate/watcher';
import { Watchers } from '../simulate/watchers';

/** A check, with a finding for every rule that failed on it. */
export type GuardedCheck = GuideCheck & { readonly faults: readonly Finding[] };

/**
 * Checks a guide so that a rule which throws costs that rule alone: it becomes one finding, and the guide is run again
 * without it. A fault that no rule is guilty of is thrown on.
 */
export function* checkGuarded(
  model: Model,
  rulebook: Rulebook,
  today: string,
  observer?: RunObserver,
): Generator<undefined, GuardedCheck> {
  const faults: Finding[] = [];
  const failed = new Set<string>();
  let suspicious = false;
  for (;;) {
    const guilty: { rule: string | null } = { rule: null };
    // Watching the watchers costs time, so it is done only after something was thrown: the next run throws there again.
    const left = () => rulebook.watchers.all.filter(({ rule }) => !failed.has(rule));
    const book = suspicious
      ? { ...rulebook, watchers: new Watchers(left().map((watcher) => observed(watcher, guilty))) }
      : rulebook;
    try {
      const check = yield* checkGuide(model, book, today, observer);
      return { ...check, findings: [...check.findings, ...faults], faults };
    } catch (error) {
      if (!suspicious) {
        suspicious = true;
        continue;
      }
      // Some throws never leave the run, so that the last one tells who it was only when one did.
      if (guilty.rule === null || failed.has(guilty.rule)) throw error;
      failed.add(guilty.rule);
      faults.push(faultOf(model, guilty.rule, error));
    }
  }
}

function faultOf(model: Model, rule: string, error: unknown): Finding {
  const message = `The rule ${rule} failed here by a fault of ours, so it was not checked: ${faultInWords(error)}`;
  return plainFinding('internal-fault', { uri: model.uri, span: { start: 0, end: 0 } }, message, {
    severity: 'warning',
    item: rule,
  });
}

/** The first line of what was thrown. */
export function faultInWords(error: unknown): string {
  const words = error instanceof Error ? error.message : String(error);
  return words.split('\n')[0] || 'no reason given';
}

/** The same watcher, which writes down that it threw. */
function observed(watcher: Watcher, guilty: { rule: string | null }): Watcher {
  const noting = <Arguments extends unknown[], Result>(
    work: ((...words: Arguments) => Result) | undefined,
  ): ((...words: Arguments) => Result) | undefined =>
    work === undefined
      ? undefined
      : (...words) => {
          try {
            return work.apply(watcher, words);
          } catch (error) {
            guilty.rule = watcher.rule;
            throw error;
          }
        };
  return {
    rule: watcher.rule,
    verbs: watcher.verbs,
    concerns: watcher.concerns,
    before: noting(watcher.before),
    atSpot: noting(watcher.atSpot),
    afterSpot: noting(watcher.afterSpot),
    after: noting(watcher.after),
    landed: noting(watcher.landed),
    sank: noting(watcher.sank),
    stepEnded: noting(watcher.stepEnded),
    ended: noting(watcher.ended),
  } as Watcher;
}
