/** What the edits did to the findings: new, gone, for more variants or fewer, worse or better. */

import type { Finding, Severity } from '../findings/finding';
import { counted, listed } from '../findings/words';
import type { Model } from '../model/model';
import { type GuideAccount, nameOfStep, type StepAccount } from './account';
import { type Change, change } from './change';
import type { Matching } from './matching';
import { extentOf, type Variants, variantsOfCubes } from './variants-told';
import type { Version } from './version';

/** Steps without operations are told by the coverage. */
const NOT_TOLD = new Set(['unchecked-step']);

const NAMES: Record<Severity, string> = { error: 'error', warning: 'warning', info: 'note' };
const WEIGHT: Record<Severity, number> = { error: 0, warning: 1, info: 2 };

export interface ComparedFindings {
  readonly changes: readonly Change[];
  readonly new: readonly Finding[];
  readonly gone: readonly Finding[];
  /** Findings of both versions that are now worse, or hold for more variants. */
  readonly more: readonly Finding[];
}

interface At {
  readonly finding: Finding;
  readonly step: StepAccount | null;
  /** What it is about, as the later version calls the step. */
  readonly keys: readonly string[];
}

export function compareFindings(
  [before, after]: readonly [Version, Version],
  accounts: readonly [GuideAccount, GuideAccount],
  matching: Matching,
): ComparedFindings {
  const later = new Map(matching.pairs.map((pair) => [pair.before, pair.after]));
  const named = new Map(accounts[1].steps.map((step, index) => [step, index]));
  const stepKey = (step: StepAccount | null) => {
    const known = step === null ? undefined : named.get(later.get(step) ?? step);
    return known === undefined ? `gone ${step?.number ?? ''}` : String(known);
  };
  const old = placed(before.findings, accounts[0], stepKey);
  const now = placed(after.findings, accounts[1], stepKey);
  const pairs: [At, At][] = [];
  const taken = new Set<At>();
  for (let tier = 0; tier < 4; tier++) {
    const waiting = new Map<string, At[]>();
    for (const one of now)
      if (!taken.has(one)) waiting.set(one.keys[tier]!, [...(waiting.get(one.keys[tier]!) ?? []), one]);
    for (const one of old) {
      if (taken.has(one)) continue;
      const other = waiting.get(one.keys[tier]!)?.shift();
      if (other === undefined) continue;
      taken.add(one).add(other);
      pairs.push([one, other]);
    }
  }
  const gone = old.filter((one) => !taken.has(one));
  const fresh = now.filter((one) => !taken.has(one));
  const kept = pairs.map(([one, other]) => keptChange(one, other, before.model, after.model));
  return {
    changes: [
      ...fresh.map((one) => newChange(one, after.model)),
      ...gone.map((one) => goneChange(one, before.model)),
      ...kept.flatMap((one) => one?.change ?? []),
    ],
    new: fresh.map(({ finding }) => finding),
    gone: gone.map(({ finding }) => finding),
    more: kept.flatMap((one) => (one?.worse ? [one.finding] : [])),
  };
}

function placed(
  findings: readonly Finding[],
  account: GuideAccount,
  stepKey: (step: StepAccount | null) => string,
): At[] {
  const byPath = new Map(account.steps.map((step) => [step.path, step]));
  return findings.flatMap((finding): At[] => {
    const { rule, item = '', message, operation = '' } = finding;
    if (NOT_TOLD.has(rule)) return [];
    const step =
      byPath.get(operation) ??
      byPath.get(operation.slice(0, Math.max(0, operation.lastIndexOf('.')))) ??
      null;
    const at = stepKey(step);
    // The nearer likenesses first. A message of a name bears numbers of steps, so that the last goes without it.
    const keys = [
      [rule, item, at, message],
      [rule, item, at],
      [rule, item, message],
      [rule, item, item === '' ? message : ''],
    ];
    return [{ finding, step, keys: keys.map((key) => key.join('\n')) }];
  });
}

const where = (step: StepAccount | null): string => (step === null ? '' : ` in ${nameOfStep(step)}`);

function newChange({ finding, step }: At, model: Model): Change {
  const { severity, message, rule, place } = finding;
  return change({
    kind: 'finding-new',
    level: severity === 'info' ? 'work' : 'first',
    rank: severity === 'error' ? (finding.harm === 'injury' ? 0 : 2) : severity === 'warning' ? 8 : 80,
    sentence: `New ${NAMES[severity]}${where(step)}: ${message}`,
    variants: variantsOfCubes(model, finding.variants).words,
    step,
    after: place,
    rule,
  });
}

function goneChange({ finding, step }: At, model: Model): Change {
  const { severity, message, rule, place } = finding;
  return change({
    kind: 'finding-gone',
    level: 'gone',
    rank: WEIGHT[severity],
    sentence: `No longer found${where(step)}: ${message}`,
    variants: variantsOfCubes(model, finding.variants).words,
    step,
    before: place,
    rule,
  });
}

function keptChange(one: At, other: At, earlier: Model, later: Model) {
  const [old, now] = [one.finding, other.finding];
  const [from, to] = [variantsOfCubes(earlier, old.variants), variantsOfCubes(later, now.variants)];
  const extent = extentOf(from, to, later);
  const sides = sidesOf(now).length - sidesOf(old).length;
  const heavier = WEIGHT[now.severity] - WEIGHT[old.severity];
  if (extent === 'same' && heavier === 0 && sides === 0) return null;
  const worse = heavier < 0 || extent === 'more' || extent === 'others' || sides > 0;
  const told = [
    ...(heavier === 0 ? [] : [`is now ${article(now.severity)} instead of ${article(old.severity)}`]),
    ...(extent === 'same' ? [] : [`is now found ${inWords(to)}; before, ${inWords(from)}`]),
    ...(sides === 0 ? [] : [`is now found on ${sidesTold(now)}; before, on ${sidesTold(old)}`]),
  ];
  return {
    worse,
    finding: now,
    change: change({
      kind: 'finding-changed',
      level: worse ? (now.severity === 'info' ? 'work' : 'first') : 'gone',
      rank: worse ? (now.severity === 'error' ? 3 : 9) : 5,
      sentence: `${now.message.replace(/\.$/, '')}: this ${told.join(', and ')}.`,
      step: other.step,
      before: old.place,
      after: now.place,
      rule: now.rule,
    }),
  };
}

const sidesOf = ({ sides = [] }: Finding): readonly string[] => sides;
const sidesTold = (finding: Finding): string => {
  const sides = sidesOf(finding);
  return sides.length === 0
    ? 'no side by itself'
    : sides.length > 1
      ? 'both sides'
      : `the ${listed(sides)} alone`;
};
const inWords = ({ words }: Variants): string => words ?? 'in every variant';
const article = (severity: Severity): string => `${severity === 'error' ? 'an' : 'a'} ${NAMES[severity]}`;

/** What was decided before and is not any more, told once for each rule and property. */
export function compareUndecided(before: Version, after: Version): Change[] {
  const keyOf = ({ rule, item, property }: Version['coverage']['undecided'][number]) =>
    `${rule}\n${item}\n${property}`;
  const known = new Set(before.coverage.undecided.map(keyOf));
  const groups = new Map<
    string,
    { readonly rule: string; readonly property: string; readonly items: string[] }
  >();
  for (const one of after.coverage.undecided) {
    if (known.has(keyOf(one))) continue;
    const key = `${one.rule}\n${one.property}`;
    const group = groups.get(key) ?? { rule: one.rule, property: one.property, items: [] };
    groups.set(key, group);
    group.items.push(one.item);
  }
  return [...groups.values()].map(({ rule, property, items }) =>
    change({
      kind: 'undecided',
      level: 'work',
      rank: 75,
      sentence: `The rule ${rule} cannot be decided for ${listed(shownItems(items))}: ${property} is not known.`,
      rule,
      after: { uri: after.model.uri, span: { start: 0, end: 0 } },
    }),
  );
}

const MOST_ITEMS = 5;
const shownItems = (items: readonly string[]): string[] =>
  items.length <= MOST_ITEMS
    ? [...items].sort()
    : [...[...items].sort().slice(0, MOST_ITEMS - 1), counted(items.length - MOST_ITEMS + 1, 'more')].map(
        (one) => one.replace(/mores$/, 'more'),
      );
