import {
  type CancellationToken,
  type Connection,
  type DocumentDiagnosticReport,
  LSPErrorCodes,
  ResponseError,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver/lib/common/api.js';
import type { Context } from './context';
import type { Reports } from './reports';
import { nameOfUri } from './uris';

/** Findings for a client that pulls them. */
export class Pulling {
  /** What changed that nobody edited: the client is told to pull again. */
  private refreshing = false;

  constructor(
    private readonly context: Context,
    private readonly reports: Reports,
    /** When the first look over all folders is done. */
    private readonly scanned: () => Promise<void>,
  ) {}

  register(connection: Connection): void {
    connection.languages.diagnostics.on((parameters, token) =>
      this.ofDocument(parameters.textDocument.uri, parameters.previousResultId, token),
    );
    connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token) => ({
      items: await this.ofWorkspace(previousResultIds, token),
    }));
  }

  /**
   * @param names documents whose findings may have changed.
   * @param edited those of them to whose edit this is the answer; the client pulls these by itself.
   */
  answered(names: ReadonlySet<string>, edited: ReadonlySet<string>): void {
    if (this.context.client.workspace?.diagnostics?.refreshSupport !== true || this.refreshing) return;
    // What depends on an edited document a client pulls after the edit; what came later it does not know of.
    if (edited.size > 0 || ![...names].some((name) => this.context.texts.open.has(name))) return;
    this.refreshing = true;
    void this.context.checker.whenAll().then(() => {
      this.refreshing = false;
      this.context.connection.languages.diagnostics.refresh();
    });
  }

  private async ofDocument(
    uri: string,
    previous: string | undefined,
    token: CancellationToken,
  ): Promise<DocumentDiagnosticReport> {
    const name = nameOfUri(uri);
    await unlessCancelled(this.context.checker.whenNear(name), token);
    const { id, items } = await this.reports.of(name);
    return previous === id
      ? { kind: 'unchanged', resultId: id }
      : { kind: 'full', resultId: id, items: [...items] };
  }

  private async ofWorkspace(
    previous: readonly { readonly uri: string; readonly value: string }[],
    token: CancellationToken,
  ): Promise<WorkspaceDocumentDiagnosticReport[]> {
    await unlessCancelled(this.scanned(), token);
    await unlessCancelled(this.context.checker.whenAll(), token);
    const before = new Map(previous.map(({ uri, value }) => [nameOfUri(uri), value]));
    const reported: WorkspaceDocumentDiagnosticReport[] = [];
    for (const name of new Set([...this.context.checker.documents(), ...before.keys()])) {
      const { id, items } = await this.reports.of(name);
      if (items.length === 0 && !before.has(name)) continue;
      const uri = this.context.uriOf(name);
      const version = this.context.texts.open.get(name)?.version ?? null;
      reported.push(
        before.get(name) === id
          ? { kind: 'unchanged', uri, version, resultId: id }
          : { kind: 'full', uri, version, resultId: id, items: [...items] },
      );
    }
    return reported;
  }
}

/** Waits, or gives up as the protocol wants it when the client no longer cares. */
async function unlessCancelled(work: Promise<void>, token: CancellationToken): Promise<void> {
  const cancelled = () => new ResponseError(LSPErrorCodes.RequestCancelled, 'No longer wanted.');
  if (token.isCancellationRequested) throw cancelled();
  let stop: { dispose(): void } | null = null;
  const given = new Promise<never>((_resolve, reject) => {
    stop = token.onCancellationRequested(() => reject(cancelled()));
  });
  try {
    await Promise.race([work, given]);
  } finally {
    (stop as { dispose(): void } | null)?.dispose();
  }
}
