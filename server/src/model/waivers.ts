/** Findings that a guide accepts, with what each stands on. */

import type { Waiver } from './model';
import { operationOutlines, type SectionOutline } from './outline';
import type { Runs } from './runs';
import { type Cursor, itemsAt, textAt } from './source';

/**
 * In order of place: the guide's own, then each section's, step's and operation's; then those of the sections that it
 * takes from other guides, which go with them. What another guide accepts as a whole is its own matter.
 */
export function waiversOf({ main, steps }: Runs): Waiver[] {
  const waivers = at(main.outline.root, '0', false);
  const given = main.outline.root.get('given');
  for (const { cursor, path } of given?.isList ? operationOutlines(given, '0') : [])
    waivers.push(...at(cursor, path, false));
  for (const section of main.outline.sections) waivers.push(...inSection(section, '', false));
  const seen = new Set<string>();
  for (const { frame, step } of steps) {
    const path = `${frame.prefix}${step.section.number}`;
    if (frame.use === null || seen.has(path)) continue;
    seen.add(path);
    waivers.push(...inSection(step.section, frame.prefix, true));
  }
  return waivers;
}

function inSection(section: SectionOutline, prefix: string, used: boolean): Waiver[] {
  const waivers = at(section.cursor, `${prefix}${section.number}`, used);
  for (const step of section.steps) {
    waivers.push(...at(step.cursor, `${prefix}${step.path}`, used));
    for (const { cursor, path } of step.operations) waivers.push(...at(cursor, `${prefix}${path}`, used));
  }
  return waivers;
}

function at(cursor: Cursor, path: string, used: boolean): Waiver[] {
  return itemsAt(cursor, 'waive').flatMap((item): Waiver[] => {
    const rule = item.get('rule');
    if (rule === null || rule.text === null) return [];
    return [
      {
        path,
        rule: rule.text,
        because: textAt(item, 'because') ?? '',
        by: textAt(item, 'by') ?? '',
        until: textAt(item, 'until'),
        place: rule.place,
        places: {
          because: item.get('because')?.place ?? null,
          by: item.get('by')?.place ?? null,
          until: item.get('until')?.place ?? null,
        },
        used,
      },
    ];
  });
}
