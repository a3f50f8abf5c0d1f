import type { Finding } from '../findings/finding';
import { KindTable } from '../model/kinds';
import { nearestName } from '../model/nearest';
import { Report, shown, suggestion } from '../model/report';
import { Cursor, entriesAt, itemsAt, type Library, type OpenDocument } from '../model/source';

/**
 * What is wrong in a file of standard times itself: a time that names an access which the file does not have, or what looks
 * like a slip of a kind's name. Other kinds may be a vehicle's own.
 */
export function checkTimes(document: OpenDocument, library: Library): Finding[] {
  if (document.kind !== 'times') return [];
  const report = new Report();
  const root = Cursor.of(document);
  const kinds = library.known?.kinds ?? new KindTable(library.packs);
  const names = new Set(entriesAt(root, 'access').map(([name]) => name));
  for (const entry of itemsAt(root, 'times')) {
    for (const kind of itemsAt(entry, 'kind')) {
      const written = kind.text;
      const near = written === null || kinds.has(written) ? null : nearestName(written, kinds.written);
      if (written === null || near === null) continue;
      const { hint, fixes } = suggestion(kind.place, near);
      const message = `No pack has a kind "${shown(written)}"${hint}`;
      report.add('unknown-part-kind', kind.place, message, { severity: 'warning', fixes });
    }
    const access = entry.get('access');
    if (access?.text == null || names.has(access.text)) continue;
    const near = nearestName(access.text, names);
    const { hint, fixes } = suggestion(access.place, near);
    const message = `This file has no "${shown(access.text)}" under access${hint}`;
    report.add('unknown-access', access.place, message, { fixes });
  }
  return report.findings;
}
