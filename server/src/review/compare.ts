/** Two versions of a guide held against each other by what they mean: formatting, comments and the order of keys are no change. */

import { accountOf } from './account-of';
import { type Change, change, compareChanges } from './change';
import { compareData } from './compare-data';
import { compareFindings, compareUndecided } from './compare-findings';
import { compareHead } from './compare-head';
import { compareSections } from './compare-sections';
import { compareSteps } from './compare-steps';
import { effectRows } from './comparison-words';
import { dataOf } from './data-of';
import { type Effects, effectsOf } from './effects';
import { matchSections } from './match-sections';
import { matchSteps } from './matching';
import { renameChanges, renamedAccount, renamedData, renamedVersion, renamesOf, replaced } from './renames';
import type { Version } from './version';

export interface Comparison {
  readonly title: string;
  /** The most dangerous first. */
  readonly changes: readonly Change[];
  readonly effects: Effects;
  /** What changed in the vehicle's data and is nothing to the guide. */
  readonly untouched: number;
}

/** What changed in meaning from the one version to the other. Of a version with itself nothing did. */
export function compareVersions(earlier: Version, after: Version): Comparison {
  const data = [dataOf(earlier.model), dataOf(after.model)] as const;
  const later = accountOf(after);
  const asWritten = accountOf(earlier);
  const renames = renamesOf(data, [asWritten, later]);
  const before = renamedVersion(earlier, renames);
  const versions = [before, after] as const;
  const accounts = [renamedAccount(asWritten, renames), later] as const;
  const matching = matchSteps(accounts[0].steps, accounts[1].steps);
  const findings = compareFindings(versions, accounts, matching);
  const compared = compareData([renamedData(data[0], renames), data[1]], after.model, later);
  const changes = [
    ...findings.changes,
    ...compareUndecided(before, after),
    ...compareHead(versions, accounts, (item) => replaced(item, renames)),
    ...compareSections(accounts[0], accounts[1], matchSections(accounts[0], accounts[1], matching)),
    ...compareSteps(accounts[0], accounts[1], matching, after.model),
    ...compared.changes,
    ...renameChanges(renames, ...data),
  ];
  const effects = effectsOf(before, after, findings);
  if (changes.length === 0 && effectRows(effects).length > 0) changes.push(elsewhere());
  return {
    title: after.model.title,
    changes: changes.sort(compareChanges),
    effects,
    untouched: compared.untouched,
  };
}

/** The guide, its vehicle and its kit say the same; what is quoted or checked is other all the same. */
const elsewhere = (): Change =>
  change({
    kind: 'settings',
    level: 'work',
    rank: 95,
    sentence: 'The guide says what it said; rules, standard times or settings that count for it changed.',
  });
