import { createHash } from 'node:crypto';
import type { Finding, Place } from '../../findings/finding';
import { Lines } from '../../text/lines';
import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import { variantsInWords } from '../words';

/** Where a place is, as other programs want it: the file seen from a folder, lines and columns from 1 in UTF-16 units. */
export interface Region {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

const nowhere = new Lines('');

export function regionOf(check: ProjectCheck, { uri, span }: Place, folder: string): Region {
  const lines = check.documents.get(uri)?.lines ?? nowhere;
  const start = lines.lineColumnAt(span.start);
  const end = lines.lineColumnAt(span.end);
  return {
    file: relativePath(folder, uri),
    line: start.line,
    column: start.column,
    endLine: end.line,
    endColumn: end.column,
  };
}

/** The sentence of a finding with the variants it holds for. */
export function wholeSentence({ message, variants }: Finding): string {
  const words = variantsInWords(variants);
  return words === null ? message : `${message} ${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** How reports name what a finding is known by, with the version of how it is made. */
export const FINGERPRINT = 'kitproofFinding/v1';

/**
 * What each finding is known by while the lines around it move: its rule, file, item and the words it stands at, and of equal
 * ones the how many-eth it is.
 */
export function fingerprintsOf(
  check: ProjectCheck,
  findings: readonly Finding[],
  folder: string,
): readonly string[] {
  const seen = new Map<string, number>();
  return findings.map(({ rule, place: { uri, span }, item = '', sides = [], message }) => {
    const words = check.documents.get(uri)?.text.slice(span.start, span.end) ?? '';
    const about = item === '' ? message : item;
    const key = [rule, relativePath(folder, uri), about, sides.join(), words].join('\0');
    const count = (seen.get(key) ?? 0) + 1;
    seen.set(key, count);
    return createHash('sha256').update(`${key}\0${count}`).digest('hex').slice(0, 32);
  });
}
