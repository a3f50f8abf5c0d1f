import { type Document, readDocument } from './document';
import { PACK_TEXTS } from './pack-texts';

const NAME = 'kitproof://packs/';

/** Whether a document is a standard pack, by its name. */
export const isStandardPack = (uri: string): boolean => uri.startsWith(NAME);

let read: readonly Document[] | null = null;
let whole: Promise<readonly Document[]> | null = null;

/** The standard packs as documents, as every check needs them. Their texts never change, so they are read once. */
export function standardPacks(): readonly Document[] {
  read ??= documentsOf(PACK_TEXTS);
  return read;
}

/** The standard packs with their examples: what explains and tests rules. A check leaves them where they are. */
export function wholeStandardPacks(): Promise<readonly Document[]> {
  whole ??= import('./pack-texts').then((texts) => documentsOf(texts.PACK_TEXTS));
  return whole;
}

const documentsOf = (texts: Readonly<Record<string, string>>): readonly Document[] =>
  Object.entries(texts).flatMap(([name, text]) => readDocument(`${NAME}${name}.rules.yaml`, text) ?? []);
