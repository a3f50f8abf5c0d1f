import { CodeLensRefreshRequest, InlayHintRefreshRequest } from 'vscode-languageserver/lib/common/api.js';
import type { Context } from './context';

/** Lenses and hints that a client shows: where something changed that it did not edit, it is told to ask for them again. */
export class Decorations {
  private waiting = false;

  constructor(private readonly context: Context) {}

  /** What the writer wants to see is another. */
  refresh(): void {
    const { connection, client } = this.context;
    const ask = (method: string): void => {
      // A client that is going away answers no more.
      connection.sendRequest(method).catch(() => undefined);
    };
    if (client.workspace?.codeLens?.refreshSupport === true) ask(CodeLensRefreshRequest.method);
    if (client.workspace?.inlayHint?.refreshSupport === true) ask(InlayHintRefreshRequest.method);
  }

  /**
   * @param names documents of which something else may be shown.
   * @param edited those of them to whose edit this is the answer; the client asks again for these by itself.
   */
  answered(names: ReadonlySet<string>, edited: ReadonlySet<string>): void {
    const { checker, texts } = this.context;
    if (this.waiting || edited.size > 0 || ![...names].some((name) => texts.open.has(name))) return;
    this.waiting = true;
    void checker.whenAll().then(() => {
      this.waiting = false;
      this.refresh();
    });
  }
}
