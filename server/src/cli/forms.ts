import { NoBrowser, PrintFailed } from '../workspace/print-pdf';
import type { Arguments } from './command';
import { type Io, ReadError, UsageError } from './io';
import { writeFileOf } from './outputs';

/** A form in which something is printed, and the file it goes to; `-` is the screen. */
export interface WantedForm<Form extends string> {
  readonly form: Form;
  readonly file: string;
}

/** Reads `--html FILE --pdf FILE …`, each form an option of its own; Markdown on the screen where none is named. */
export function formsOf<Form extends string>(
  args: Arguments,
  forms: readonly Form[],
  io: Io,
): readonly WantedForm<Form | 'markdown'>[] {
  const wanted = forms.flatMap((form): WantedForm<Form | 'markdown'>[] => {
    const file = args.text(form);
    if (file?.trim() === '') throw new UsageError(`--${form} takes a file, or "-" for the screen.`);
    return file === undefined ? [] : [{ form, file }];
  });
  if (wanted.length === 0) return [{ form: 'markdown', file: '-' }];
  if (wanted.some(({ form, file }) => form === 'pdf' && file === '-') && io.outIsTerminal)
    throw new UsageError('A PDF is nothing for a terminal; name a file.');
  if (wanted.filter(({ file }) => file === '-').length > 1)
    throw new UsageError('Only one form can go to the screen; name files for the others.');
  const files = wanted.flatMap(({ file }) => (file === '-' ? [] : [file]));
  if (new Set(files).size < files.length) throw new UsageError('Two forms would be written to one file.');
  return wanted;
}

export async function writeForm(
  { file }: WantedForm<string>,
  content: string | Uint8Array,
  io: Io,
): Promise<void> {
  if (file !== '-') await writeFileOf(file, content, io);
  else if (typeof content === 'string') io.out(content);
  else io.outBytes(content);
}

/** A page of HTML as a PDF; a machine that cannot print is told of in one line. */
export async function pdfOf(page: string, io: Io): Promise<Uint8Array> {
  try {
    return await io.printPdf(page);
  } catch (error) {
    if (error instanceof NoBrowser || error instanceof PrintFailed) throw new ReadError(error.message);
    throw error;
  }
}
