import type { Finding } from '../findings/finding';
import { nearestName } from '../model/nearest';
import { Report, shown, suggestion } from '../model/report';
import { Cursor, entriesAt, itemsAt, type OpenDocument } from '../model/source';

/** What is wrong in a file of standard times itself: a time that names an access which the file does not have. */
export function checkTimes(document: OpenDocument): Finding[] {
  if (document.kind !== 'times') return [];
  const report = new Report();
  const root = Cursor.of(document);
  const names = new Set(entriesAt(root, 'access').map(([name]) => name));
  for (const entry of itemsAt(root, 'times')) {
    const access = entry.get('access');
    if (access?.text == null || names.has(access.text)) continue;
    const near = nearestName(access.text, names);
    const { hint, fixes } = suggestion(access.place, near);
    const message = `This file has no "${shown(access.text)}" under access${hint}`;
    report.add('unknown-access', access.place, message, { fixes });
  }
  return report.findings;
}
