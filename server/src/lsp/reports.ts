import type { Diagnostic } from 'vscode-languageserver/lib/common/api.js';
import type { Context } from './context';
import { diagnosticOf } from './diagnostic';

/** What was last reported of a document. */
export interface Report {
  /** Changes with what is reported. */
  readonly id: string;
  readonly items: readonly Diagnostic[];
}

/** The findings of documents in the words of the protocol, with an id that stays while they do. */
export class Reports {
  private readonly known = new Map<string, { readonly key: string; readonly report: Report }>();
  private count = 0;

  constructor(private readonly context: Context) {}

  /** What is reported of a document now; nothing where it is not ours or there is no such file. */
  async of(name: string): Promise<Report> {
    const { context } = this;
    const findings = context.checker.findingsOf(name);
    const lines = findings.length === 0 ? null : await context.linesOf(name);
    const version = context.texts.open.get(name)?.version ?? null;
    const can = context.client.textDocument?.publishDiagnostics;
    const related = can?.relatedInformation !== false;
    const linked = can?.codeDescriptionSupport === true && lines !== null;
    const pages = linked ? await context.rulePages.of(name, new Set(findings.map(({ rule }) => rule))) : null;
    const items: Diagnostic[] = [];
    if (lines !== null)
      for (const finding of findings)
        items.push(
          await diagnosticOf(finding, lines, context, version, { related, page: pages?.get(finding.rule) }),
        );
    // The version travels in the data, yet alone it is no news.
    const key = JSON.stringify(items, (word, value) => (word === 'version' ? undefined : value));
    const known = this.known.get(name);
    if (known?.key === key) return { id: known.report.id, items };
    this.count++;
    const report = { id: String(this.count), items };
    this.known.set(name, { key, report });
    return report;
  }
}
