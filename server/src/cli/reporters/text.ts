import { undecidedInWords } from '../../check/undecided-in-words';
import type { Finding, Related, Severity } from '../../findings/finding';
import type { Lines } from '../../text/lines';
import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import type { Colours } from '../colours';
import { excerptOf } from '../excerpt';
import { madeInWords } from '../fix';
import { paddedLeft, printable, wrap } from '../width';
import { CAUTION, counted, countsOf, listed, variantsInWords } from '../words';
import type { ReportContext } from './reporter';
import { sharesInWords } from './shares';
import { waivedBlock } from './waived';

/** Steps that led to a finding, shown at most; the first and the last say most. */
const MOST_RELATED = 8;

/** For people: each finding with its line, its sentence, the steps that led there, the variants; then the summary. */
export function reportText(check: ProjectCheck, context: ReportContext): string {
  const { fixed, folder, colours } = context;
  const head = fixed === null ? '' : madeInWords(fixed, folder, colours);
  const blocks = check.findings.map((finding) => findingBlock(check, finding, context));
  const lists = context.undecided ? [undecidedBlock(check, context), uncheckedBlock(check, context)] : [];
  if (context.waived) lists.push(waivedBlock(check, context));
  return `${head}${[...blocks, ...lists.filter((list) => list !== null), summaryOf(check, context)].join('\n\n')}\n`;
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
    `${colours.bold(`${file}:${position.line + 1}:${position.character + 1}`)}  ${paint(WORDS[finding.severity])}  ${colours.dim(finding.rule)}`,
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
  const { colours, columns } = context;
  const { undecided } = check.coverage;
  if (undecided.length === 0) return colours.bold('Nothing was left undecided.');
  const out: string[] = [colours.bold('Not decided, for want of data')];
  let guide = '';
  for (const one of undecided) {
    if (one.guide !== guide) out.push(`  ${relativePath(context.folder, one.guide)}`);
    guide = one.guide;
    const words = wrap(printable(`${one.rule}: ${undecidedInWords(one)}`), Math.max(30, columns - 6));
    out.push(...words.map((line, index) => `    ${index === 0 ? '' : '  '}${line}`));
  }
  return out.join('\n');
}

/** The steps that were not checked, by their numbers, with what no file declares; null where there are none. */
function uncheckedBlock(check: ProjectCheck, context: ReportContext): string | null {
  const { colours, columns } = context;
  const byGuide = new Map<string, string[]>();
  for (const { guide, step, undeclared } of check.coverage.unchecked) {
    const why = undeclared.length === 0 ? '' : ` (not declared: ${listed(undeclared)})`;
    byGuide.set(guide, [...(byGuide.get(guide) ?? []), `${step}${why}`]);
  }
  if (byGuide.size === 0) return null;
  const out = [colours.bold('Steps not checked, or not all of them')];
  for (const [guide, steps] of byGuide) {
    out.push(`  ${relativePath(context.folder, guide)}`);
    out.push(...wrap(printable(steps.join(', ')), Math.max(30, columns - 4)).map((line) => `    ${line}`));
  }
  return out.join('\n');
}

/** Steps that are named in the summary, at most. */
const MOST_NAMED_STEPS = 4;

/** `, not 1.5 and 2.1`, where they are few; with their guides where there are several. */
function notChecked({ guides, coverage }: ProjectCheck, { folder }: ReportContext): string {
  const { unchecked } = coverage;
  if (unchecked.length === 0 || unchecked.length > MOST_NAMED_STEPS) return '';
  const named = unchecked.map(({ guide, step }) =>
    guides === 1 ? step : `${relativePath(folder, guide)} ${step}`,
  );
  return `, not ${listed(named)}`;
}

function summaryOf(check: ProjectCheck, context: ReportContext): string {
  const { colours, columns } = context;
  const counts = countsOf(check.findings);
  const { steps, checkedSteps, undecided, waived } = check.coverage;
  const parts = (['error', 'warning', 'info'] as const).flatMap((severity) =>
    counts[severity] === 0 ? [] : [painter(colours, severity)(counted(counts[severity], WORDS[severity]))],
  );
  const files = counted(check.files, 'file');
  const { before } = context;
  const no = before === null ? 'No findings' : 'No new findings';
  const out = [parts.length === 0 ? `${no} in ${files}.` : `${listed(parts)} in ${files}.`];
  out.push(...sharesInWords(check, context));
  if (before !== null && before > 0)
    out.push(`Left out, as the baseline has them: ${counted(before, 'finding')}.`);
  if (check.guides > 0) {
    const share = steps === 0 ? '' : ` (${Math.floor((checkedSteps / steps) * 100)} %)`;
    const hint = undecided.length > 0 && !context.undecided ? ' (list them with --undecided)' : '';
    const checked = `Steps checked: ${checkedSteps} of ${steps}${share}${notChecked(check, context)}`;
    const more = waived > 0 && !context.waived ? ' (list them with --waived)' : '';
    out.push(
      ...wrap(`${checked}; undecided: ${undecided.length}${hint}; waived: ${waived}${more}.`, columns),
    );
  }
  out.push(...wrap(CAUTION, columns).map((line) => colours.dim(line)));
  return out.join('\n');
}

/** For people; settings and programs say `info`. */
const WORDS: Record<Severity, string> = { error: 'error', warning: 'warning', info: 'note' };

function painter(colours: Colours, severity: Severity): (text: string) => string {
  if (severity === 'error') return (text) => colours.bold(colours.red(text));
  return severity === 'warning' ? colours.yellow : colours.blue;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
