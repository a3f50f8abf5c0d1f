/** What a server that has no disk asks its client for. The client says that it answers by `experimental.kitproof.files`. */
import type { EntryKind, Listed } from '../workspace/port';

export const READ_REQUEST = 'kitproof/readFile';
export const BYTES_REQUEST = 'kitproof/readBytes';
export const LIST_REQUEST = 'kitproof/listFolder';
export const KIND_REQUEST = 'kitproof/fileKind';

export interface PlaceParams {
  readonly uri: string;
}

/** The text, null where there is no such file or it cannot be read. */
export type ReadAnswer = string | null;
/** The bytes in base64, null where there is no such file or it cannot be read. */
export type BytesAnswer = string | null;
/** Links to folders are left out: they may lead in circles. */
export type ListAnswer = readonly Listed[];
export type KindAnswer = EntryKind | null;
