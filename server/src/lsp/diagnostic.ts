import {
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type TextEdit,
} from 'vscode-languageserver/lib/common/api.js';
import type { Finding, Severity } from '../findings/finding';
import { variantsInWords } from '../findings/words';
import type { Lines } from '../text/lines';
import { rangeOf } from './context';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

/** What is written for nothing: an editor greys it. */
const UNNECESSARY: ReadonlySet<string> = new Set([
  'unused-waiver',
  'waiver-expired',
  'unknown-waiver',
  'unused-binding',
  'always-so',
  'figure-never-used',
  'never-done',
  'never-there',
  'setting-replaced',
  'never-asked',
  'no-effect',
]);

/** A fix as it travels with its finding. */
export interface CarriedFix {
  readonly title: string;
  readonly safe: boolean;
  readonly edits: readonly { readonly uri: string; readonly edit: TextEdit }[];
}

/** What a finding carries, and its quick fixes are made from. */
export interface DiagnosticData {
  readonly rule: string;
  readonly item: string | null;
  readonly operation: string | null;
  /** The version of the document that the places of the fixes are of; null where it is not open. */
  readonly version: number | null;
  readonly fixes: readonly CarriedFix[];
}

export interface Places {
  linesOf(name: string): Promise<Lines | null>;
  uriOf(name: string): string;
}

/** What a client takes with a finding. */
export interface Wanted {
  readonly related: boolean;
  /** The address of what is said of its rule; undefined where there is none, or the client knows nothing of such. */
  readonly page: string | undefined;
}

/** A finding in the words of the protocol. */
export async function diagnosticOf(
  finding: Finding,
  lines: Lines,
  places: Places,
  version: number | null,
  { related: relatedWanted, page }: Wanted,
): Promise<Diagnostic> {
  const variants = variantsInWords(finding.variants);
  const related = [];
  for (const { place, message } of relatedWanted ? finding.related : []) {
    const other = await places.linesOf(place.uri);
    if (other === null) continue;
    related.push({ location: { uri: places.uriOf(place.uri), range: rangeOf(other, place.span) }, message });
  }
  const data: DiagnosticData = {
    rule: finding.rule,
    item: finding.item ?? null,
    operation: finding.operation ?? null,
    version,
    fixes: await Promise.all(finding.fixes.map((fix) => carried(fix, places))),
  };
  return {
    range: rangeOf(lines, finding.place.span),
    severity: SEVERITIES[finding.severity],
    code: finding.rule,
    ...(page === undefined ? {} : { codeDescription: { href: page } }),
    source: 'kitproof',
    message: variants === null ? finding.message : `${finding.message} (${variants})`,
    ...(related.length > 0 ? { relatedInformation: related } : {}),
    ...(UNNECESSARY.has(finding.rule) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    data,
  };
}

async function carried(fix: Finding['fixes'][number], places: Places): Promise<CarriedFix> {
  const edits = [];
  for (const { place, text } of fix.edits) {
    const lines = await places.linesOf(place.uri);
    if (lines === null) continue;
    edits.push({ uri: places.uriOf(place.uri), edit: { range: rangeOf(lines, place.span), newText: text } });
  }
  return { title: fix.title, safe: fix.safe, edits };
}
