/** Two versions of a guide held against each other by what they mean: formatting, comments and the order of keys are no change. */

import { accountOf } from './account-of';
import { type Change, compareChanges } from './change';
import { compareData } from './compare-data';
import { compareFindings, compareUndecided } from './compare-findings';
import { compareHead, compareSections } from './compare-head';
import { compareSteps } from './compare-steps';
import { type Effects, effectsOf } from './effects';
import { matchSections } from './match-sections';
import { matchSteps } from './matching';
import type { Version } from './version';

export interface Comparison {
  readonly title: string;
  /** The most dangerous first. */
  readonly changes: readonly Change[];
  readonly effects: Effects;
}

/** What changed in meaning from the one version to the other. Of a version with itself nothing did. */
export function compareVersions(before: Version, after: Version): Comparison {
  const versions = [before, after] as const;
  const accounts = [accountOf(before), accountOf(after)] as const;
  const matching = matchSteps(accounts[0].steps, accounts[1].steps);
  const findings = compareFindings(versions, accounts, matching);
  const changes = [
    ...findings.changes,
    ...compareUndecided(before, after),
    ...compareHead(versions, accounts),
    ...compareSections(accounts[0], accounts[1], matchSections(accounts[0], accounts[1], matching)),
    ...compareSteps(accounts[0], accounts[1], matching, after.model),
    ...compareData(before, after, accounts[1]),
  ];
  return {
    title: after.model.title,
    changes: changes.sort(compareChanges),
    effects: effectsOf(before, after, findings),
  };
}
