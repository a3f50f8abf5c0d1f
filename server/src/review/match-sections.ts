import type { GuideAccount, SectionAccount } from './account';
import type { Matching } from './matching';

/** Which section of the later version an earlier one is: by id, by title, else the one that has most of its steps. */
export function matchSections(
  before: GuideAccount,
  after: GuideAccount,
  { pairs }: Matching,
): (section: SectionAccount) => SectionAccount | null {
  const found = new Map<SectionAccount, SectionAccount>();
  const taken = new Set<SectionAccount>();
  const steps = (old: SectionAccount, now: SectionAccount): number =>
    pairs.filter((pair) => pair.before.section === old.number && pair.after.section === now.number).length;
  const tests: readonly ((a: SectionAccount, b: SectionAccount) => boolean)[] = [
    (a, b) => a.id !== null && a.id === b.id,
    (a, b) => a.title === b.title,
    (a, b) => {
      const own = before.steps.filter(({ section }) => section === a.number).length;
      return steps(a, b) * 2 > own || (own === 0 && a.number === b.number);
    },
  ];
  for (const test of tests)
    for (const old of before.sections) {
      if (found.has(old)) continue;
      const now = after.sections.find((one) => !taken.has(one) && test(old, one));
      if (now === undefined) continue;
      found.set(old, now);
      taken.add(now);
    }
  return (section) => found.get(section) ?? null;
}
