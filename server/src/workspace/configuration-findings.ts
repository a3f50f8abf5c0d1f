import { type Finding, type Fix, plainFinding } from '../findings/finding';
import { nearestName } from '../model/nearest';
import type { DocumentKind } from '../schema/document';
import type { Configuration } from './configuration';
import type { Document } from './document';
import { relativePath } from './paths';
import { type ReferenceRole, referencesOf } from './references';

const WANTED: Partial<Record<ReferenceRole, { kind: DocumentKind; what: string }>> = {
  pack: { kind: 'rules', what: 'rule pack' },
  times: { kind: 'times', what: 'file of standard times' },
};

/**
 * What is wrong in a `kitproof.yaml` beside its structure: files that are not there or are something else, rules that
 * no pack has, allowances that cannot be.
 * @param opened the documents it names, by name; null for those that are missing or not ours.
 */
export function configurationFindings(
  configuration: Configuration,
  opened: ReadonlyMap<string, Document | null>,
  rules: Iterable<string>,
): Finding[] {
  const { document, folder } = configuration;
  if (document === null || folder === null) return [];
  const found: Finding[] = [...configuration.allowanceFindings];
  const place = (node: { start: number; end: number }) => ({
    uri: document.uri,
    span: { start: node.start, end: node.end },
  });
  for (const { role, uri, node } of referencesOf(document)) {
    const wanted = WANTED[role];
    if (wanted === undefined) continue;
    const target = opened.get(uri) ?? null;
    const path = relativePath(folder, uri);
    if (target === null) {
      const message = `${path} is not there, or does not begin with "kitproof: ${wanted.kind}/1".`;
      found.push(plainFinding('missing-file', place(node), message));
    } else if (target.kind !== wanted.kind) {
      found.push(plainFinding('wrong-document', place(node), `${path} is no ${wanted.what}.`));
    }
  }
  const known = new Set(rules);
  for (const [id, { keyNode }] of configuration.rules) {
    if (known.has(id)) continue;
    const near = nearestName(id, known);
    const at = place(keyNode);
    const fixes: Fix[] =
      near === null ? [] : [{ title: `Write ${near}`, edits: [{ place: at, text: near }], safe: false }];
    const hint = near === null ? '.' : `; did you mean "${near}"?`;
    found.push(
      plainFinding('unknown-rule', at, `No pack has a rule "${id}"${hint}`, { severity: 'warning', fixes }),
    );
  }
  return found;
}
