import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import { printable, wrap } from '../width';
import { variantsInWords } from '../words';
import type { ReportContext } from './reporter';

/** For people: what is waived, where it stands, and who accepts it, why and how long. */
export function waivedBlock(check: ProjectCheck, { colours, columns, folder }: ReportContext): string {
  if (check.waived.length === 0) return colours.bold('Nothing is waived.');
  const out = [colours.bold('Waived')];
  const add = (text: string, paint: (line: string) => string = (line) => line) =>
    out.push(...wrap(printable(text), Math.max(30, columns - 4)).map((line) => `    ${paint(line)}`));
  for (const { finding, waiver } of check.waived) {
    const { uri, span } = finding.place;
    const { line, column } = check.documents.get(uri)?.lines.lineColumnAt(span.start) ?? {
      line: 1,
      column: 1,
    };
    out.push(`  ${relativePath(folder, uri)}:${line}:${column}  ${colours.dim(finding.rule)}`);
    const variants = variantsInWords(finding.variants);
    add(variants === null ? finding.message : `${finding.message} (${variants})`);
    const until = waiver.until === null ? 'no day named' : `until ${waiver.until}`;
    const by = waiver.by === '' ? 'nobody named' : waiver.by;
    const elsewhere = waiver.place.uri === uri ? '' : `; in ${relativePath(folder, waiver.place.uri)}`;
    add(`${by}, ${until}: ${waiver.because || 'no reason given'}${elsewhere}`, colours.dim);
  }
  return out.join('\n');
}
