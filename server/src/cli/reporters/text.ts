import type { Finding, Related, Severity } from '../../findings/finding';
import type { Lines } from '../../text/lines';
import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import type { Colours } from '../colours';
import { excerptOf } from '../excerpt';
import { padded, paddedLeft, printable, shorten, wrap } from '../width';
import { CAUTION, counted, countsOf, listed, variantsInWords } from '../words';
import type { ReportContext } from './reporter';

/** Steps that led to a finding, shown at most; the first and the last say most. */
const MOST_RELATED = 8;

/** For people: each finding with its line, its sentence, the steps that led there, the variants; then the summary. */
export function reportText(check: ProjectCheck, context: ReportContext): string {
  const blocks = check.findings.map((finding) => findingBlock(check, finding, context));
  const lists = context.undecided ? [undecidedBlock(check, context)] : [];
  return `${[...blocks, ...lists, summaryOf(check, context)].join('\n\n')}\n`;
}

function findingBlock(check: ProjectCheck, finding: Finding, context: ReportContext): string {
  const { colours, columns } = context;
  const paint = painter(colours, finding.severity);
  const { uri, span } = finding.place;
  const lines = check.documents.get(uri)?.lines;
  const file = relativePath(context.folder, uri);
  const position = lines?.positionAt(span.start) ?? { line: 0, character: 0 };
  const related = shownRelated(finding.related);
  const gutter = Math.max(
    4,
    ...[position.line, ...related.map((one) => lineOf(check, one))].map((line) => String(line + 1).length),
  );
  const indent = ' '.repeat(gutter + 3);
  const room = Math.max(30, columns - indent.length);
  const out = [
    `${colours.bold(`${file}:${position.line + 1}:${position.character + 1}`)}  ${paint(finding.severity)}  ${colours.dim(finding.rule)}`,
  ];
  if (lines !== undefined && lines.text !== '')
    out.push(...sourceLines(lines, finding, gutter, room, colours, paint));
  out.push(...wrap(printable(finding.message), room).map((line) => indent + line));
  const variants = variantsInWords(finding.variants);
  if (variants !== null)
    out.push(...wrap(printable(`${capital(variants)}.`), room).map((line) => indent + colours.cyan(line)));
  for (const one of related) out.push(...relatedLines(check, one, uri, gutter, room, context));
  if (finding.related.length > related.length) {
    out.push(indent + colours.dim(`(${finding.related.length - related.length} more steps between)`));
  }
  for (const fix of finding.fixes) {
    wrap(printable(fix.title), room - 5).forEach((line, index) => {
      out.push(`${indent}${index === 0 ? colours.green('fix: ') : '     '}${line}`);
    });
  }
  return out.join('\n');
}

function sourceLines(
  lines: Lines,
  finding: Finding,
  gutter: number,
  room: number,
  colours: Colours,
  paint: (text: string) => string,
): string[] {
  const { source, blanks, marks } = excerptOf(lines, finding.place.span, room);
  const number = paddedLeft(String(lines.positionAt(finding.place.span.start).line + 1), gutter);
  const bar = colours.dim('│');
  return [`${colours.dim(number)} ${bar} ${source}`, `${' '.repeat(gutter)} ${bar} ${blanks}${paint(marks)}`];
}

function relatedLines(
  check: ProjectCheck,
  related: Related,
  home: string,
  gutter: number,
  room: number,
  context: ReportContext,
): string[] {
  const { colours } = context;
  const number = paddedLeft(String(lineOf(check, related) + 1), gutter);
  const elsewhere = related.place.uri === home ? '' : ` (${relativePath(context.folder, related.place.uri)})`;
  return wrap(printable(related.message + elsewhere), room).map(
    (line, index) =>
      `${index === 0 ? colours.dim(`${number} ·`) : ' '.repeat(gutter + 2)} ${colours.dim(line)}`,
  );
}

function shownRelated(related: readonly Related[]): readonly Related[] {
  if (related.length <= MOST_RELATED) return related;
  return [...related.slice(0, MOST_RELATED / 2), ...related.slice(-MOST_RELATED / 2)];
}

function lineOf(check: ProjectCheck, related: Related): number {
  return check.documents.get(related.place.uri)?.lines.positionAt(related.place.span.start).line ?? 0;
}

function undecidedBlock(check: ProjectCheck, context: ReportContext): string {
  const { colours } = context;
  const { undecided } = check.coverage;
  if (undecided.length === 0) return colours.bold('Nothing was left undecided.');
  const out: string[] = [colours.bold('Not decided, for want of data')];
  const ruleWidth = Math.max(...undecided.map((one) => one.rule.length));
  const itemWidth = Math.min(48, Math.max(...undecided.map((one) => one.item.length)));
  let guide = '';
  for (const one of undecided) {
    if (one.guide !== guide) out.push(`  ${relativePath(context.folder, one.guide)}`);
    guide = one.guide;
    const item = padded(shorten(printable(one.item), itemWidth), itemWidth);
    out.push(
      `    ${padded(one.rule, ruleWidth)}  ${item}  ${colours.dim(`needs ${printable(one.property)}`)}`,
    );
  }
  return out.join('\n');
}

function summaryOf(check: ProjectCheck, context: ReportContext): string {
  const { colours, columns } = context;
  const counts = countsOf(check.findings);
  const { steps, checkedSteps, undecided, waived } = check.coverage;
  const parts = (['error', 'warning', 'info'] as const).flatMap((severity) =>
    counts[severity] === 0 ? [] : [painter(colours, severity)(counted(counts[severity], WORDS[severity]))],
  );
  const files = counted(check.files, 'file');
  const out = [parts.length === 0 ? `No findings in ${files}.` : `${listed(parts)} in ${files}.`];
  if (check.guides > 0) {
    const share = steps === 0 ? '' : ` (${Math.floor((checkedSteps / steps) * 100)} %)`;
    const hint = undecided.length > 0 && !context.undecided ? ' (list them with --undecided)' : '';
    out.push(
      `Steps checked: ${checkedSteps} of ${steps}${share}; undecided: ${undecided.length}${hint}; waived: ${waived}.`,
    );
  }
  out.push(...wrap(CAUTION, columns).map((line) => colours.dim(line)));
  return out.join('\n');
}

const WORDS: Record<Severity, string> = { error: 'error', warning: 'warning', info: 'info' };

function painter(colours: Colours, severity: Severity): (text: string) => string {
  if (severity === 'error') return (text) => colours.bold(colours.red(text));
  return severity === 'warning' ? colours.yellow : colours.blue;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
