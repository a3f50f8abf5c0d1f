import type { PrintedGuide } from '../guide/printed';
import { base64 } from './base64';
import type { Files } from './port';

const TYPES: Readonly<Record<string, string>> = {
  svg: 'image/svg+xml',
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
  webp: 'image/webp',
};
/** Of one picture, and of all of a guide; a page has to be opened and sent. */
const MOST_BYTES = 20e6;
const MOST_OF_ALL = 100e6;

/** The pictures of a guide as `data:` addresses by the name of their file. What is missing, no picture or too large is left out. */
export async function picturesOf({ sections }: PrintedGuide, files: Files): Promise<Map<string, string>> {
  const pictures = new Map<string, string>();
  let all = 0;
  for (const { name } of sections.flatMap(({ steps }) => steps.flatMap(({ figures }) => figures))) {
    const type = TYPES[name.slice(name.lastIndexOf('.') + 1).toLowerCase()];
    if (pictures.has(name) || type === undefined) continue;
    const bytes = await files.bytes?.(name);
    if (bytes === undefined || bytes === null || bytes.length > MOST_BYTES) continue;
    all += bytes.length;
    if (all > MOST_OF_ALL) break;
    pictures.set(name, `data:${type};base64,${base64(bytes)}`);
  }
  return pictures;
}
