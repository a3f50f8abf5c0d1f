import type { Context } from './context';
import type { Reports } from './reports';

/** Findings for a client that does not pull them: sent when they change, and after every edit whether they do or not. */
export class Pushing {
  private readonly sent = new Map<string, string>();
  private queue: Promise<void> = Promise.resolve();

  constructor(
    private readonly context: Context,
    private readonly reports: Reports,
  ) {}

  /** @param edited those of the documents to which an answer is owed. */
  answered(names: ReadonlySet<string>, edited: ReadonlySet<string>): void {
    this.queue = this.queue.then(() => this.send(names, edited)).catch(() => undefined);
  }

  private async send(names: ReadonlySet<string>, edited: ReadonlySet<string>): Promise<void> {
    const { context } = this;
    // What was edited first: someone is looking at it.
    for (const name of [...edited, ...[...names].filter((one) => !edited.has(one)).sort()]) {
      const { id, items } = await this.reports.of(name);
      const before = this.sent.get(name);
      if (!edited.has(name) && (before === id || (before === undefined && items.length === 0))) continue;
      this.sent.set(name, id);
      const version = context.texts.open.get(name)?.version;
      await context.connection.sendDiagnostics({
        uri: context.uriOf(name),
        diagnostics: [...items],
        ...(version === undefined ? {} : { version }),
      });
    }
  }
}
