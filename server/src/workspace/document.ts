import { DOCUMENT_KINDS, type DocumentKind } from '../schema/document';
import { find } from '../text/access';
import { Lines } from '../text/lines';
import { readText } from '../text/read';
import type { Reading } from '../text/tree';

/** A document of ours as it was read. Plain data; another text is another document. */
export interface Document {
  readonly uri: string;
  readonly text: string;
  /** Null where its first key names a kind or a version that is not known. */
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
export function isNamedAsOurs(name: string): boolean {
  const [last = '', hint = '', ...rest] = name
    .slice(name.lastIndexOf('/') + 1)
    .split('.')
    .reverse();
  if (last !== 'yaml' && last !== 'yml') return false;
  return rest.length === 0 ? hint === 'kitproof' : hint !== 'config' && KINDS.has(hint);
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
  if (!mentionsKey(text)) return null;
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
  if (written === null) return null;
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
