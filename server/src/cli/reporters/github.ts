import type { Severity } from '../../findings/finding';
import type { ProjectCheck } from '../../workspace/check';
import { counted, countsOf } from '../words';
import { regionOf, wholeSentence } from './places';
import type { ReportContext } from './reporter';
import { sharesInWords } from './shares';

const LEVEL: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'notice' };

/** Workflow commands by which a run on GitHub puts findings beside the lines of a pull request. */
export function reportGithub(check: ProjectCheck, context: ReportContext): string {
  const { folder } = context;
  const lines = check.findings.map((finding) => {
    const { file, line, column, endLine, endColumn } = regionOf(check, finding.place, folder);
    const properties = {
      file,
      line,
      endLine,
      // Columns count within one line alone.
      ...(line === endLine ? { col: column, endColumn } : {}),
      title: `kitproof ${finding.rule}`,
    };
    const said = Object.entries(properties).map(([name, value]) => `${name}=${property(String(value))}`);
    return `::${LEVEL[finding.severity]} ${said.join(',')}::${data(wholeSentence(finding))}`;
  });
  const { error, warning, info } = countsOf(check.findings);
  const { steps, checkedSteps } = check.coverage;
  lines.push(
    data(
      `Kitproof: ${counted(error, 'error')}, ${counted(warning, 'warning')}, ${counted(info, 'note')} in ${counted(check.files, 'file')}; ${checkedSteps} of ${counted(steps, 'step')} checked.`,
    ),
  );
  for (const line of sharesInWords(check, context)) lines.push(data(line));
  return `${lines.join('\n')}\n`;
}

const data = (text: string): string =>
  text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
const property = (text: string): string => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
