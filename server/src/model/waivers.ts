/** Findings that a guide accepts, with what each stands on. */

import type { Waiver } from './model';
import type { GuideOutline } from './outline';
import { type Cursor, itemsAt, textAt } from './source';

/** In order of place: the guide's own, then each section's, step's and operation's. */
export function waiversOf(guide: GuideOutline): Waiver[] {
  const waivers = at(guide.root, '0');
  for (const section of guide.sections) {
    waivers.push(...at(section.cursor, `${section.number}`));
    for (const step of section.steps) {
      waivers.push(...at(step.cursor, step.path));
      for (const operation of step.operations) waivers.push(...at(operation.cursor, operation.path));
    }
  }
  return waivers;
}

function at(cursor: Cursor, path: string): Waiver[] {
  return itemsAt(cursor, 'waive').flatMap((item): Waiver[] => {
    const rule = textAt(item, 'rule');
    if (rule === null) return [];
    const because = textAt(item, 'because') ?? '';
    return [
      { path, rule, because, by: textAt(item, 'by') ?? '', until: textAt(item, 'until'), place: item.header },
    ];
  });
}
