import type { Severity } from '../../findings/finding';
import type { ProjectCheck } from '../../workspace/check';
import { CAUTION, counted, countsOf } from '../words';
import { regionOf, wholeSentence } from './places';
import type { ReportContext } from './reporter';
import { sharesInWords } from './shares';

const SIGN: Readonly<Record<Severity, string>> = { error: '**error**', warning: 'warning', info: 'note' };
/** More than this nobody reads in a table; the rest is counted. */
const MOST_ROWS = 100;

/** A summary for a pull request or the page of a run: counts, cover, and the findings as a table, the worst first. */
export function reportMarkdown(check: ProjectCheck, context: ReportContext): string {
  const { folder, before } = context;
  const { error, warning, info } = countsOf(check.findings);
  const { steps, checkedSteps, undecided, waived } = check.coverage;
  const percent = steps === 0 ? 100 : Math.floor((checkedSteps * 100) / steps);
  const counts = [
    error > 0 ? counted(error, 'error') : '',
    warning > 0 ? counted(warning, 'warning') : '',
    info > 0 ? counted(info, 'note') : '',
  ].filter((one) => one !== '');
  const out = [
    '## Kitproof',
    '',
    `${counts.length === 0 ? 'No findings' : counts.join(', ')} in ${counted(check.files, 'file')}. Steps checked: ${checkedSteps} of ${steps} (${percent} %); undecided: ${undecided.length}; waived: ${waived}.`,
    ...sharesInWords(check, context).flatMap((line) => ['', plain(line)]),
    ...(before === null ? [] : ['', `Left out, as the baseline has them: ${counted(before, 'finding')}.`]),
    '',
  ];
  const order: readonly Severity[] = ['error', 'warning', 'info'];
  const findings = order.flatMap((severity) => check.findings.filter((one) => one.severity === severity));
  if (findings.length > 0) {
    out.push('| | Where | What | Rule |', '| --- | --- | --- | --- |');
    for (const finding of findings.slice(0, MOST_ROWS)) {
      const { file, line } = regionOf(check, finding.place, folder);
      const cells = [
        SIGN[finding.severity],
        plain(`${file}:${line}`),
        plain(wholeSentence(finding)),
        plain(finding.rule),
      ];
      out.push(`| ${cells.join(' | ')} |`);
    }
    if (findings.length > MOST_ROWS)
      out.push('', `And ${counted(findings.length - MOST_ROWS, 'more finding')}.`);
    out.push('');
  }
  out.push(`_${CAUTION}_`, '');
  return out.join('\n');
}

/** Words as words: nothing of a document is markup, a link or the end of a cell. */
const plain = (text: string): string =>
  text
    .replaceAll(/[\r\n]+/g, ' ')
    .replaceAll(/[\\`*_{}[\]()#+!|~]/g, '\\$&')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('@', '&#64;');
