import { DOCUMENT_KINDS, type DocumentKind } from '../schema/document';
import { isNearFirstKey, misspeltFirstKey } from '../schema/first-key';
import { find } from '../text/access';
import { Lines } from '../text/lines';
import { readText } from '../text/read';
import type { Reading } from '../text/tree';

/** A document of ours as it was read. Plain data; another text is another document. */
export interface Document {
  readonly uri: string;
  readonly text: string;
  /** Null where its first key is misspelt, or names a kind or a version that is not known. */
  readonly kind: DocumentKind | null;
  readonly reading: Reading;
  readonly lines: Lines;
}

const KINDS: ReadonlySet<string> = new Set(DOCUMENT_KINDS);

/** Folders that no project keeps its guides in. */
export const SKIPPED_FOLDERS: ReadonlySet<string> = new Set(['node_modules', 'dist']);

/** Whether a name could be a document of ours at all. */
export function isYamlName(name: string): boolean {
  return name.endsWith('.yaml') || name.endsWith('.yml');
}

/** Whether a name's ending says that it is meant to be ours; only the first key decides. */
export const isNamedAsOurs = (name: string): boolean => kindInName(name) !== null;

/** The kind of document that a name's ending hints at, null where it hints at none. */
export function kindInName(name: string): DocumentKind | null {
  const [last = '', hint = '', ...rest] = name
    .slice(name.lastIndexOf('/') + 1)
    .split('.')
    .reverse();
  if (last !== 'yaml' && last !== 'yml') return null;
  if (rest.length === 0) return hint === 'kitproof' ? 'config' : null;
  return hint !== 'config' && KINDS.has(hint) ? (hint as DocumentKind) : null;
}

/**
 * Reads a text as a document of ours, or null where it has no first key that says so.
 * @param read gives the reading of the text, where whoever asks has one already.
 */
export function readDocument(
  uri: string,
  text: string,
  read: () => Reading = () => readText(text),
): Document | null {
  if (!mentionsKey(text) && !beginsNearKey(text)) return null;
  const reading = read();
  const claim = claimOf(text, reading);
  return claim === null ? null : { uri, text, kind: claim.kind, reading, lines: new Lines(text) };
}

/** Cheap look before reading: some line begins with the key. */
function mentionsKey(text: string): boolean {
  for (let at = text.indexOf('kitproof'); at >= 0; at = text.indexOf('kitproof', at + 1)) {
    const before = text[at - 1];
    // A byte order mark, a quote or a brace may stand before the very first key.
    if (before === undefined || '\n\r\uFEFF"\'{ '.includes(before)) return true;
  }
  return false;
}

/** What a text says it is: null where it says nothing, or a kind that is not known. */
function claimOf(text: string, reading: Reading): { readonly kind: DocumentKind | null } | null {
  const claim = reading.root === null ? undefined : find(reading.root, 'kitproof', reading);
  const written = claim === undefined ? writtenKey(text) : String(claim.value.value ?? '');
  if (written === null) {
    const misspelt =
      reading.root === null ? beginsNearKey(text) : misspeltFirstKey(reading.root, reading) !== null;
    return misspelt ? { kind: null } : null;
  }
  const word = written.trim().split('/')[0]!;
  return { kind: KINDS.has(word) && written.trim() === `${word}/1` ? (word as DocumentKind) : null };
}

/** The key's value in a text that cannot be read as a map. */
function writtenKey(text: string): string | null {
  for (const line of text.split('\n', 50)) {
    const start = line.startsWith('\uFEFF') ? 1 : 0;
    if (line.startsWith('kitproof:', start)) return line.slice(start + 9);
  }
  return null;
}

/** Lines before the first key that are looked at: comments, blank ones, the mark `---`, directives. */
const MOST_HEAD_LINES = 200;

/** Cheap look before reading: the first line that says something begins with a key that is nearly ours. */
function beginsNearKey(text: string): boolean {
  let at = text.startsWith('\uFEFF') ? 1 : 0;
  for (let count = 0; count < MOST_HEAD_LINES && at < text.length; count++) {
    const end = text.indexOf('\n', at);
    let line = text.slice(at, Math.min(end < 0 ? text.length : end, at + 200)).trim();
    if (line.startsWith('--- ')) line = line.slice(4).trim();
    const silent = line === '' || line === '---' || line.startsWith('#') || line.startsWith('%');
    if (!silent) {
      const colon = line.indexOf(':');
      return colon > 0 && isNearFirstKey(line.slice(0, colon).replaceAll(/["'{ ]/g, ''));
    }
    if (end < 0) return false;
    at = end + 1;
  }
  return false;
}
