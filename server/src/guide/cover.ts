/** What was checked of a guide and what was not: no page says less than this. */

import type { GuideCheck } from '../check/check';
import type { Finding } from '../findings/finding';
import type { Model } from '../model/model';
import type { PrintedCover } from './printed';

/**
 * @param findings all that were found in the guide and in what it leads to.
 * @param numbers printed numbers of steps, by path.
 */
export function coverOf(
  model: Model,
  { coverage }: Pick<GuideCheck, 'coverage'>,
  findings: readonly Finding[],
  numbers: ReadonlyMap<string, string>,
): PrintedCover {
  const counts = { error: 0, warning: 0, info: 0 };
  for (const { severity } of findings) counts[severity]++;
  const undecided = new Map<string, Set<string>>();
  for (const { item, property } of coverage.undecided) {
    const items = undecided.get(property) ?? new Set();
    undecided.set(property, items.add(item));
  }
  return {
    findings: counts,
    steps: coverage.steps,
    checkedSteps: coverage.checkedSteps,
    unchecked: coverage.unchecked.map(({ step }) => step),
    drafts: [
      ...new Set(model.steps.flatMap(({ draft, path }) => (draft ? [numbers.get(path) ?? path] : []))),
    ],
    waived: coverage.waived,
    waivers: model.waivers.flatMap(({ path, rule, by, until }) => {
      if (by.trim() === '' || until === null) return [];
      const step = path.split('.').slice(0, 2).join('.');
      const number = numbers.get(path) ?? numbers.get(path.slice(0, path.lastIndexOf('.'))) ?? step;
      const where = path === '0' ? '' : path.includes('.') ? ` in step ${number}` : ` in section ${path}`;
      return [`${rule}${where}, by ${by} until ${until}`];
    }),
    undecided: [...undecided].map(([property, items]) => ({ property, items: [...items].sort() })),
  };
}
