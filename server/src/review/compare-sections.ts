/** Sections that came or went, and what they say of all their steps. */

import type { GuideAccount, SectionAccount } from './account';
import { type Change, change } from './change';

/** Sections with other conditions, titles, or people. */
export function compareSections(
  old: GuideAccount,
  now: GuideAccount,
  laterSection: (section: SectionAccount) => SectionAccount | null,
): Change[] {
  const found: Change[] = [];
  const kept = new Set<SectionAccount>();
  for (const section of old.sections) {
    const other = laterSection(section);
    if (other === null) {
      found.push(
        change({
          kind: 'section-removed',
          level: 'work',
          rank: 8,
          sentence: `The section "${section.title}" is gone.`,
          before: section.place,
        }),
      );
      continue;
    }
    kept.add(other);
    const places = { before: section.place, after: other.place };
    if (section.title !== other.title)
      found.push(
        change({
          kind: 'section-changed',
          level: 'words',
          rank: 6,
          sentence: `The section "${section.title}" is now called "${other.title}".`,
          from: section.title,
          to: other.title,
          ...places,
        }),
      );
    if (section.condition.written !== other.condition.written)
      found.push(
        change({
          kind: 'condition',
          level: other.condition.written === '' ? 'work' : 'first',
          rank: 24,
          sentence:
            other.condition.written === ''
              ? `The section "${other.title}" is now always done; before, only with ${section.condition.shown}.`
              : `The section "${other.title}" is now done only with ${other.condition.shown}; before, ${section.condition.written === '' ? 'always' : `only with ${section.condition.shown}`}.`,
          ...places,
        }),
      );
    if (section.side !== other.side)
      found.push(
        change({
          kind: 'side',
          level: other.side === '' ? 'work' : 'first',
          rank: 28,
          sentence: `The section "${other.title}" is now done on ${other.side || 'both sides'}; before, on ${section.side || 'both sides'}.`,
          ...places,
        }),
      );
    if (section.skill !== other.skill)
      found.push(
        change({
          kind: 'section-changed',
          level: 'words',
          rank: 15,
          sentence: `The section "${other.title}" is for ${other.skill ?? 'nobody in particular'} instead of ${section.skill ?? 'nobody in particular'}.`,
          ...places,
        }),
      );
    if (section.note !== other.note)
      found.push(
        change({
          kind: 'words',
          level: 'words',
          rank: 40,
          sentence: `The remark of the section "${other.title}" reads otherwise.`,
          from: section.note,
          to: other.note,
          ...places,
        }),
      );
  }
  for (const section of now.sections)
    if (!kept.has(section))
      found.push(
        change({
          kind: 'section-added',
          level: 'work',
          rank: 8,
          sentence: `The section "${section.title}" is new.`,
          after: section.place,
        }),
      );
  return found;
}
