/** Findings that are accepted, no longer accepted, or accepted for longer. */

import type { Waiver } from '../model/model';
import { type GuideAccount, nameOfStep, type StepAccount } from './account';
import { type Change, change } from './change';
import type { Version } from './version';

export function compareWaivers(before: Version, after: Version, account: GuideAccount): Change[] {
  const found: Change[] = [];
  const left = [...before.model.waivers];
  for (const one of after.model.waivers) {
    const index = indexOf(left, one);
    const was = index < 0 ? undefined : left.splice(index, 1)[0];
    const who = `${one.by || 'nobody by name'}, until ${one.until ?? 'no day at all'}: ${one.because || 'no reason given'}`;
    if (was === undefined) {
      found.push(
        change({
          kind: 'waiver-added',
          level: 'first',
          rank: 12,
          sentence: `${one.rule} is now waived${whereOf(one, account)}, by ${who}`.replace(/\.?$/, '.'),
          step: stepOf(one, account),
          after: one.place,
          rule: one.rule,
        }),
      );
    } else if (was.until !== one.until || was.by !== one.by || was.because.trim() !== one.because.trim()) {
      const longer = (one.until ?? '9') > (was.until ?? '9');
      found.push(
        change({
          kind: 'waiver-changed',
          level: longer || was.by !== one.by ? 'first' : 'work',
          rank: 37,
          sentence:
            `The waiver of ${one.rule} ${longer ? 'holds longer' : 'reads otherwise'}: by ${who}`.replace(
              /\.?$/,
              '.',
            ),
          from: `${was.by}, ${was.until ?? ''}: ${was.because}`,
          to: `${one.by}, ${one.until ?? ''}: ${one.because}`,
          before: was.place,
          after: one.place,
          rule: one.rule,
        }),
      );
    }
  }
  for (const one of left)
    found.push(
      change({
        kind: 'waiver-removed',
        level: 'work',
        rank: 85,
        sentence: `${one.rule} is no longer waived.`,
        before: one.place,
        rule: one.rule,
      }),
    );
  return found;
}

const stepOf = ({ path }: Waiver, { steps }: GuideAccount): StepAccount | null =>
  steps.find((step) => path === step.path || path.startsWith(`${step.path}.`)) ?? null;

function whereOf(waiver: Waiver, account: GuideAccount): string {
  const step = stepOf(waiver, account);
  if (step !== null) return ` in ${nameOfStep(step)}`;
  if (waiver.path === '0') return ' in the whole guide';
  const section = account.sections.find(({ number }) => String(number) === waiver.path);
  return section === undefined ? '' : ` in the section "${section.title}"`;
}

/** The same waiver: of its rule, with its reason if there is one such. */
function indexOf(waivers: readonly Waiver[], { rule, because, until }: Waiver): number {
  const tests: readonly ((one: Waiver) => boolean)[] = [
    (one) => one.because === because && one.until === until,
    (one) => one.because === because,
    () => true,
  ];
  for (const test of tests) {
    const index = waivers.findIndex((one) => one.rule === rule && test(one));
    if (index >= 0) return index;
  }
  return -1;
}
