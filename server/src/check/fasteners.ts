/** Threads, classes and grades of vehicle and kit files that nothing is known of: figures that go by them are not judged. */

import { gradeNames, parseGrade } from '../calc/strength';
import { parseThread } from '../calc/threads';
import type { Finding } from '../findings/finding';
import { nearestName } from '../model/nearest';
import { Report, shown, writeInstead } from '../model/report';
import { Cursor, entriesAt, type OpenDocument, textsAt } from '../model/source';

/** Of a nut the class is one number, of a thin one with a nought before it (ISO 898-2). */
const NUT_CLASSES = ['5', '6', '8', '9', '10', '12', '04', '05'];

/** Two figures with a point between them, or a grade: a slip, and no other system of classes. */
const LIKE_A_CLASS = /^(?:\d{1,2}\.\d{1,2}|(?:sae )?gr(?:ade|\.)? ?\d.*)$/i;

/**
 * Tells of the threads and classes of joints, hardware and holes that cannot be read, with what is known. What looks like a slip
 * is a warning; of a pipe thread or a class of stainless steel it is told that nothing is held against them.
 */
export function checkFasteners(document: OpenDocument): Finding[] {
  if (document.kind !== 'vehicle' && document.kind !== 'kit') return [];
  const report = new Report();
  const root = Cursor.of(document);
  for (const group of ['kinds', 'parts'])
    for (const [, part] of entriesAt(root, group)) {
      for (const [, joint] of entriesAt(part, 'joints')) {
        tellThread(joint.get('thread'), report);
        tellBolt(joint.get('class'), report);
        tellNut(joint.get('nut-class'), report);
      }
      for (const [, hole] of entriesAt(part, 'holes'))
        for (const key of ['bolt', 'tap']) tellThread(hole.get(key), report);
    }
  for (const [, hardware] of entriesAt(root, 'hardware')) {
    tellThread(hardware.get('thread'), report);
    if (isNut(hardware)) tellNut(hardware.get('class'), report);
    else tellBolt(hardware.get('class'), report);
  }
  return report.findings;
}

/** Whether loose hardware is a nut: it says so, or all that it is for are nuts. */
function isNut(hardware: Cursor): boolean {
  const serves = textsAt(hardware, 'for');
  return hardware.get('nut') !== null || (serves.length > 0 && serves.every((one) => one.endsWith('.nut')));
}

function tellThread(cursor: Cursor | null, report: Report): void {
  const written = cursor?.text ?? null;
  const read = written === null ? null : parseThread(written);
  if (cursor === null || read === null || read.ok) return;
  const slip = /^m ?\d/i.test(written!.trim());
  report.add(
    'unknown-thread',
    cursor.place,
    slip
      ? `${read.message} No figure is held against it as it stands.`
      : `Nothing is known of the thread "${shown(written!)}", so no figure is held against it; known are metric and unified ones, such as M12x1.25 and 3/8-24.`,
    { severity: slip ? 'warning' : 'info' },
  );
}

function tellBolt(cursor: Cursor | null, report: Report): void {
  if (cursor?.text == null || parseGrade(cursor.text) !== undefined) return;
  const near = nearestName(cursor.text, gradeNames);
  const known = `known are ${gradeNames.slice(0, -1).join(', ')} and ${gradeNames.at(-1)}`;
  report.add(
    'unknown-class',
    cursor.place,
    `Nothing is known of bolts of class "${shown(cursor.text)}", so no torque is held against it; ${known}.`,
    {
      severity: near !== null || LIKE_A_CLASS.test(cursor.text.trim()) ? 'warning' : 'info',
      fixes: near === null ? [] : [writeInstead(cursor.place, `"${near}"`)],
    },
  );
}

function tellNut(cursor: Cursor | null, report: Report): void {
  if (cursor?.text == null) return;
  const marked = cursor.text.trim().replace(/^(?:property )?(?:class|grade) ?/i, '');
  if (/^(?:0?\d|1\d)$/.test(marked)) return;
  report.add(
    'unknown-class',
    cursor.place,
    `Nothing is known of nuts of class "${shown(cursor.text)}", so none is held against its bolt; known are ${NUT_CLASSES.join(', ')}.`,
    { severity: /^\d/.test(marked) ? 'warning' : 'info' },
  );
}
