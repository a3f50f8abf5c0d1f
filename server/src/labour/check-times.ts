import { parseThread } from '../calc/threads';
import type { Finding } from '../findings/finding';
import { KindTable } from '../model/kinds';
import { nearestName } from '../model/nearest';
import { Report, shown, suggestion } from '../model/report';
import { Cursor, entriesAt, itemsAt, type Library, type OpenDocument } from '../model/source';

/**
 * What is wrong in a file of standard times itself: a time that names an access which the file does not have, a kind that neither a
 * pack nor a vehicle here has, or a thread that cannot be read. Such a kind may be a kit's own, so that what looks like no slip is
 * only asked about.
 */
export function checkTimes(document: OpenDocument, library: Library): Finding[] {
  if (document.kind !== 'times') return [];
  const report = new Report();
  const root = Cursor.of(document);
  const kinds = library.known?.kinds ?? new KindTable(library.packs);
  const own = new Set(
    (library.vehicles ?? []).flatMap((one) => entriesAt(Cursor.of(one), 'kinds').map(([name]) => name)),
  );
  const names = new Set(entriesAt(root, 'access').map(([name]) => name));
  for (const entry of itemsAt(root, 'times')) {
    for (const kind of itemsAt(entry, 'kind')) {
      const written = kind.text;
      if (written === null || kinds.has(written) || own.has(written)) continue;
      const near = nearestName(written, kinds.written);
      const { hint, fixes } = suggestion(kind.place, near);
      const message =
        near === null
          ? `No pack has a kind "${shown(written)}", so this counts only where a vehicle or kit file has it under kinds.`
          : `No pack has a kind "${shown(written)}"${hint}`;
      report.add('unknown-part-kind', kind.place, message, {
        severity: near === null ? 'info' : 'warning',
        fixes,
      });
    }
    const thread = entry.get('thread');
    const read = thread?.text == null ? null : parseThread(thread.text);
    if (thread !== null && read?.ok === false)
      report.add(
        'unknown-thread',
        thread.place,
        `${read.message} As it stands this counts only for joints that say the same.`,
        {
          severity: 'warning',
        },
      );
    const access = entry.get('access');
    if (access?.text == null || names.has(access.text)) continue;
    const near = nearestName(access.text, names);
    const { hint, fixes } = suggestion(access.place, near);
    const message = `This file has no "${shown(access.text)}" under access${hint}`;
    report.add('unknown-access', access.place, message, { fixes });
  }
  return report.findings;
}
