import type { Finding } from '../../findings/finding';
import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import { regionOf, wholeSentence } from './places';
import type { ReportContext } from './reporter';

/**
 * The form of test results that build servers read: a suite for each document, a case for each finding. One that makes the exit
 * status is a failure, others are cases that passed and have something to say; a document without any is one case that passed.
 */
export function reportJunit(check: ProjectCheck, context: ReportContext): string {
  const shard = context.sharded?.shard;
  const byFile = new Map<string, Finding[]>();
  for (const name of [...check.judged].sort()) byFile.set(name, []);
  for (const finding of check.findings) {
    const own = byFile.get(finding.place.uri);
    if (own === undefined) byFile.set(finding.place.uri, [finding]);
    else own.push(finding);
  }
  const isFailure = ({ severity }: Finding) => context.fails(severity);
  const suites = [...byFile].sort(byName).map(([name, findings]) => {
    const file = relativePath(context.folder, name);
    const cases =
      findings.length === 0
        ? [`    <testcase classname="${xml(file)}" name="nothing found"/>`]
        : findings.map((finding) => caseOf(check, finding, file, isFailure(finding), context.folder));
    const failures = findings.filter(isFailure).length;
    return [
      `  <testsuite name="${xml(file)}" tests="${cases.length}" failures="${failures}" errors="0" skipped="0">`,
      ...cases,
      '  </testsuite>',
    ].join('\n');
  });
  // An empty report is a failure to some who read it.
  if (suites.length === 0)
    suites.push(
      '  <testsuite name="kitproof" tests="1" failures="0" errors="0" skipped="0">',
      '    <testcase classname="kitproof" name="nothing to check"/>',
      '  </testsuite>',
    );
  const tests = Math.max(
    1,
    [...byFile.values()].reduce((sum, { length }) => sum + Math.max(1, length), 0),
  );
  const failures = check.findings.filter(isFailure).length;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="${shard === undefined ? 'kitproof' : `kitproof ${shard.number}/${shard.of}`}" tests="${tests}" failures="${failures}" errors="0">`,
    ...suites,
    '</testsuites>',
    '',
  ].join('\n');
}

const byName = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number => (a < b ? -1 : 1);

function caseOf(check: ProjectCheck, finding: Finding, file: string, fails: boolean, folder: string): string {
  const { line, column } = regionOf(check, finding.place, folder);
  const sentence = wholeSentence(finding);
  const where = `${file}:${line}:${column}`;
  const led = finding.related.map((one) => {
    const { file, line } = regionOf(check, one.place, folder);
    return `${file}:${line} ${one.message}`;
  });
  const whole = xml([where, sentence, ...led].join('\n'));
  const head = `    <testcase classname="${xml(file)}" name="${xml(`${finding.rule}: ${finding.item ?? finding.message}`)}"`;
  const body = fails
    ? `      <failure type="${xml(finding.rule)}" message="${xml(sentence)}">${whole}</failure>`
    : `      <system-out>${whole}</system-out>`;
  return `${head}>\n${body}\n    </testcase>`;
}

/** Text in XML: marks written out, and what XML has no place for left out. */
const xml = (text: string): string =>
  [...text]
    .filter((one) => {
      const code = one.codePointAt(0)!;
      if (code < 0x20) return code === 9 || code === 10 || code === 13;
      return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
    })
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll('\n', '&#10;');
