import type { Finding, Place } from '../../findings/finding';
import { Lines } from '../../text/lines';
import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import { madeAsData } from '../fix';
import { recordOf } from '../merge';
import { countsOf } from '../words';
import { fingerprintsOf } from './places';
import type { ReportContext } from './reporter';

/** Version 1 of the report for other programs: fields in this order, lines and columns from 1 in UTF-16 units. */
export function reportJson(check: ProjectCheck, context: ReportContext): string {
  const at = (place: Place) => startOf(check, place, context.folder);
  const counts = countsOf(check.findings);
  const { steps, checkedSteps, unchecked, undecided, waived } = check.coverage;
  const prints = fingerprintsOf(check, check.findings, context.folder);
  const report = {
    version: 1,
    ...(context.fixed === null ? {} : { fixed: madeAsData(context.fixed, context.folder) }),
    findings: check.findings.map((finding, index) => ({
      ...findingOf(check, finding, context.folder),
      fingerprint: prints[index],
    })),
    summary: {
      files: check.files,
      errors: counts.error,
      warnings: counts.warning,
      infos: counts.info,
      ...(context.since === null ? {} : { since: context.since.revision }),
      ...(context.before === null ? {} : { before: context.before }),
      coverage: { steps, checkedSteps, undecided: undecided.length, waived },
    },
    ...(context.undecided
      ? {
          undecided: undecided.map(({ guide, rule, item, property }) => ({
            file: at({ uri: guide, span: { start: 0, end: 0 } }).file,
            rule,
            item,
            property,
          })),
          unchecked: unchecked.map(({ guide, step, undeclared }) => ({
            file: relativePath(context.folder, guide),
            step,
            undeclared,
          })),
        }
      : {}),
    ...(context.waived
      ? {
          waived: check.waived.map(({ finding, waiver }) => ({
            ...findingOf(check, finding, context.folder),
            because: waiver.because,
            by: waiver.by,
            until: waiver.until,
            waiver: at(waiver.place),
          })),
        }
      : {}),
    ...(context.sharded === null ? {} : { shard: recordOf(check, context.sharded, context) }),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function findingOf(check: ProjectCheck, finding: Finding, folder: string) {
  const start = startOf(check, finding.place, folder);
  const end = positionOf(check, finding.place.uri, finding.place.span.end);
  return {
    file: start.file,
    line: start.line,
    column: start.column,
    endLine: end.line,
    endColumn: end.column,
    rule: finding.rule,
    severity: finding.severity,
    harm: finding.harm,
    message: finding.message,
    variants: finding.variants,
    related: finding.related.map(({ place, message }) => ({ ...startOf(check, place, folder), message })),
    fixes: finding.fixes.map(({ title, safe }) => ({ title, safe })),
  };
}

function startOf(check: ProjectCheck, place: Place, folder: string) {
  return { file: relativePath(folder, place.uri), ...positionOf(check, place.uri, place.span.start) };
}

const nowhere = new Lines('');

function positionOf(check: ProjectCheck, uri: string, offset: number) {
  return (check.documents.get(uri)?.lines ?? nowhere).lineColumnAt(offset);
}
