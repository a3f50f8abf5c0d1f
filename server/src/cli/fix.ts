import type { Made, SlipsMended } from '../workspace/mend';
import { relativePath } from '../workspace/paths';
import type { Colours } from './colours';
import { type Io, ReadError } from './io';
import { printable } from './width';
import { counted } from './words';

/** Writes mended texts, each file whole or not at all. A file that changed since it was read is left as it is. */
export async function writeMended({ texts, originals }: SlipsMended, io: Io): Promise<void> {
  for (const [name, text] of texts) {
    const shown = relativePath(io.folder, name);
    if ((await io.files.read(name)) !== originals.get(name))
      throw new ReadError(`${shown} was changed meanwhile; it was not fixed.`);
    await io.replace(name, text).catch((error: unknown) => {
      throw new ReadError(
        `Cannot write ${shown}, so it was not fixed: ${error instanceof Error ? error.message : error}`,
      );
    });
  }
}

/** What was fixed, for people: a line for each. */
export function madeInWords(made: readonly Made[], folder: string, colours: Colours): string {
  if (made.length === 0)
    return 'Nothing was changed: only a slip that can be meant in one way alone is put right\nby itself. What else is offered is chosen in the editor.\n\n';
  const files = new Set(made.map(({ finding }) => finding.place.uri));
  const lines = made.map(({ finding, fix, line, column }) => {
    const file = relativePath(folder, finding.place.uri);
    return `  ${colours.bold(`${file}:${line}:${column}`)}  ${printable(fix.title)}  ${colours.dim(finding.rule)}\n`;
  });
  return `Fixed ${counted(made.length, 'slip')} in ${counted(files.size, 'file')}:\n${lines.join('')}\n`;
}

/** The same for programs. */
export const madeAsData = (made: readonly Made[], folder: string) =>
  made.map(({ finding, fix, line, column }) => ({
    file: relativePath(folder, finding.place.uri),
    line,
    column,
    rule: finding.rule,
    title: fix.title,
  }));
