import type { Finding, Fix, Severity } from '../../findings/finding';
import type { Rule } from '../../rules/rule';
import type { ProjectCheck } from '../../workspace/check';
import { relativePath } from '../../workspace/paths';
import { FINGERPRINT, fingerprintsOf, type Region, regionOf, wholeSentence } from './places';
import type { ReportContext } from './reporter';

const LEVEL: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };
/** Files are told from the folder in which the program was run; whoever reads this puts that folder in its place. */
const ROOT = 'SRCROOT';

/** The Static Analysis Results Interchange Format, version 2.1.0 (an OASIS standard). */
export function reportSarif(check: ProjectCheck, context: ReportContext): string {
  const { folder, version } = context;
  const shard = context.sharded?.shard;
  const shown = [...check.findings, ...check.waived.map(({ finding }) => finding)];
  const ids = [...new Set(shown.map(({ rule }) => rule))].sort();
  const prints = fingerprintsOf(check, shown, folder);
  const results = shown.map((finding, index) => {
    const waiver = check.waived[index - check.findings.length]?.waiver;
    return {
      ruleId: finding.rule,
      ruleIndex: ids.indexOf(finding.rule),
      level: LEVEL[finding.severity],
      message: { text: wholeSentence(finding) },
      locations: [{ physicalLocation: placeOf(regionOf(check, finding.place, folder)) }],
      ...(finding.related.length === 0
        ? {}
        : {
            relatedLocations: finding.related.map(({ place, message }, at) => ({
              id: at + 1,
              message: { text: message },
              physicalLocation: placeOf(regionOf(check, place, folder)),
            })),
          }),
      ...(finding.fixes.length === 0 ? {} : { fixes: finding.fixes.map((fix) => fixOf(check, fix, folder)) }),
      partialFingerprints: { [FINGERPRINT]: prints[index]! },
      ...(waiver === undefined
        ? {}
        : {
            suppressions: [
              { kind: 'inSource', status: 'accepted', justification: `${waiver.because} (${waiver.by})` },
            ],
          }),
      ...propertiesOf(finding),
    };
  });
  const { steps, checkedSteps, undecided, waived } = check.coverage;
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Kitproof',
            semanticVersion: version,
            rules: ids.map((id) => ruleOf(id, context.rule(id))),
          },
        },
        ...(shard === undefined
          ? {}
          : { automationDetails: { id: `kitproof/shard-${shard.number}-of-${shard.of}/` } }),
        invocations: [{ executionSuccessful: true }],
        originalUriBaseIds: { [ROOT]: { description: { text: 'The folder in which Kitproof was run.' } } },
        columnKind: 'utf16CodeUnits',
        results,
        properties: { coverage: { steps, checkedSteps, undecided: undecided.length, waived } },
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function ruleOf(id: string, rule: Rule | undefined) {
  if (rule === undefined) return { id, shortDescription: { text: id } };
  return {
    id,
    shortDescription: { text: rule.reason },
    help: { text: `${rule.reason} Source: ${rule.source}.` },
    properties: { tags: [rule.harm, rule.pack], harm: rule.harm },
  };
}

const propertiesOf = ({ harm, item, variants }: Finding) => {
  const properties = {
    ...(harm === null ? {} : { harm }),
    ...(item === undefined ? {} : { item }),
    ...(variants.length === 0 ? {} : { variants }),
  };
  return Object.keys(properties).length === 0 ? {} : { properties };
};

const artifact = (file: string) => ({ uri: encodeURI(file), uriBaseId: ROOT });

function placeOf({ file, line, column, endLine, endColumn }: Region) {
  return {
    artifactLocation: artifact(file),
    region: { startLine: line, startColumn: column, endLine, endColumn },
  };
}

function fixOf(check: ProjectCheck, { title, edits }: Fix, folder: string) {
  const byFile = new Map<string, Fix['edits'][number][]>();
  for (const edit of edits) byFile.set(edit.place.uri, [...(byFile.get(edit.place.uri) ?? []), edit]);
  return {
    description: { text: title },
    artifactChanges: [...byFile].map(([uri, own]) => ({
      artifactLocation: artifact(relativePath(folder, uri)),
      replacements: own.map(({ place, text }) => {
        const { line, column, endLine, endColumn } = regionOf(check, place, folder);
        return {
          deletedRegion: { startLine: line, startColumn: column, endLine, endColumn },
          insertedContent: { text },
        };
      }),
    })),
  };
}
