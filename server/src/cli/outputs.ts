import { folderOf, resolvePath } from '../workspace/paths';
import type { Arguments } from './command';
import { type Io, ReadError, UsageError } from './io';

/** One form of a report, and where it goes: a file, or the screen. */
export interface Output {
  readonly format: string;
  /** As it was written; null for the screen. */
  readonly file: string | null;
}

/** Reads `--format text --format sarif=out.sarif`: any number of files, and one form for the screen at most. */
export function outputsOf(args: Arguments, formats: readonly string[], otherwise: string): readonly Output[] {
  const said = args.texts('format');
  if (said.length === 0) return [{ format: otherwise, file: null }];
  const outputs = said.map((one): Output => {
    const at = one.indexOf('=');
    const format = (at < 0 ? one : one.slice(0, at)).toLowerCase();
    if (!formats.includes(format))
      throw new UsageError(`--format takes ${formats.join(', ')}; "${format}" is none of them.`);
    const file = at < 0 ? null : one.slice(at + 1).trim();
    if (file === '')
      throw new UsageError(`--format ${format}= names no file; --format ${format} alone prints it.`);
    return { format, file };
  });
  const screen = outputs.filter(({ file }) => file === null);
  if (screen.length > 1)
    throw new UsageError(
      `Only one form can go to the screen; write the others to files, as in --format ${screen[1]!.format}=FILE.`,
    );
  const files = outputs.flatMap(({ file }) => file ?? []);
  if (new Set(files).size < files.length) throw new UsageError('Two forms would be written to one file.');
  return outputs;
}

/** Writes a report where it goes; a file that stands there is written anew. */
export async function writeOutput({ file }: Output, text: string, io: Io): Promise<void> {
  if (file === null) io.out(text);
  else await writeFileOf(file, text, io);
}

/** Writes a file that a command line names; one that stands there is written anew. */
export async function writeFileOf(file: string, content: string | Uint8Array, io: Io): Promise<void> {
  const name = resolvePath(io.folder, file);
  if ((await io.files.kind(name)) === 'folder')
    throw new ReadError(`${file} is a folder; a report needs a file.`);
  try {
    if (!(await io.create(name, content))) await io.replace(name, content);
  } catch {
    throw new ReadError(`${file} could not be written (in ${folderOf(file) || '.'}).`);
  }
}
