import * as vscode from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  ErrorAction,
  type LanguageClientOptions,
  State,
  type WorkspaceEdit,
} from 'vscode-languageclient';
import { CHECK_REQUEST, type CheckedView } from '../server/src/lsp/guide-view-types';
import { answerForFiles } from './files';
import { LANGUAGE } from './language';
import { Restarts } from './restarts';
import { checkedInWords } from './words';

/** Makes the client and, when it starts, its server: a process where there is a machine, a worker in a browser. */
export type ClientMaker = (
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
) => BaseLanguageClient;

/** The language server, whatever it runs in. */
export class LanguageServer implements vscode.Disposable {
  private readonly client: BaseLanguageClient;
  private readonly restarts = new Restarts();
  /** What the server says, and that it came and went: the place to look when something seems wrong. */
  private readonly output = vscode.window.createOutputChannel('Kitproof');
  private turns: Promise<void> = Promise.resolve();
  private deaths = 0;
  private gaveUp = false;
  private readonly changed = new vscode.EventEmitter<void>();
  /** What was asked before may have another answer now: the server came or went, a text or a finding changed. */
  readonly onDidChange = this.changed.event;
  private readonly disposables: vscode.Disposable[] = [this.changed, this.output];

  constructor(context: vscode.ExtensionContext, makeClient: ClientMaker) {
    const options: LanguageClientOptions = {
      documentSelector: [{ language: LANGUAGE }],
      initializationOptions: {
        // As data: what the editor gives has functions beside the settings, which no worker can be sent.
        ...JSON.parse(JSON.stringify(vscode.workspace.getConfiguration('kitproof'))),
        catalogue: catalogueOf(context.extensionUri),
      },
      // Without a section of settings to watch, the editor would not tell of their changes.
      synchronize: { configurationSection: 'kitproof' },
      outputChannel: this.output,
      // Findings of files that are not open are asked for by the server's own scan of the folders.
      diagnosticPullOptions: { onChange: true, onSave: false },
      errorHandler: {
        error: () => ({ action: ErrorAction.Continue }),
        // Started again by us: the library's own way loses its count where a server dies as it starts.
        closed: () => {
          this.died();
          return { action: CloseAction.DoNotRestart, handled: true };
        },
      },
      initializationFailedHandler: () => false,
    };
    this.client = makeClient(context, options);
    // What goes wrong we tell in our words; what the library says of it stands in the output.
    const { error } = this.client;
    this.client.error = (message, data) => error.call(this.client, message, data, false);
    this.client.registerFeature({
      // What this client can do beside the protocol: ask why a finding is accepted, read what only the editor can.
      fillClientCapabilities: (capabilities) => {
        capabilities.experimental = { ...capabilities.experimental, kitproof: { waive: true, files: true } };
      },
      initialize: () => undefined,
      getState: () => ({ kind: 'static' }),
      clear: () => undefined,
    });
    this.disposables.push(
      ...answerForFiles(this.client, context.extensionUri),
      this.client.onDidChangeState(() => this.changed.fire()),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.languageId === LANGUAGE && contentChanges.length > 0) this.changed.fire();
      }),
      vscode.languages.onDidChangeDiagnostics(() => this.changed.fire()),
    );
  }

  start(): Promise<void> {
    return this.turn('could not be started', () => this.begin());
  }

  private async begin(): Promise<void> {
    await this.client.start();
    const { name = 'Kitproof', version = '' } = this.client.initializeResult?.serverInfo ?? {};
    this.output.appendLine(`${name} ${version} is ready.`);
  }

  /** The server went away by itself. */
  private died(): void {
    this.deaths++;
    this.output.appendLine('The server stopped by itself. Your text is as it was.');
    if (this.restarts.crashed(Date.now())) {
      void this.start();
      return;
    }
    this.gaveUp = true;
    const again = 'Restart';
    void vscode.window
      .showErrorMessage(
        'Kitproof stopped several times, so it was not started again. Your text is as it was. "Kitproof: Restart the server" tries once more.',
        again,
      )
      .then((chosen) => {
        if (chosen === again) void this.restart();
      });
  }

  restart(): Promise<void> {
    this.restarts.forget();
    this.gaveUp = false;
    return this.turn('could not be started again', async () => {
      // One that hangs does not answer to this either, and is let go.
      if (this.client.state !== State.Stopped) await this.client.stop().catch(() => undefined);
      await this.begin();
    });
  }

  /** One at a time: a server that is about to start can be neither stopped nor asked. */
  private turn(failure: string, work: () => Promise<void>): Promise<void> {
    this.turns = this.turns.then(async () => {
      // A client that has just lost its server tidies up first.
      await new Promise<void>((resolve) => setTimeout(resolve, 0));
      const { deaths } = this;
      try {
        await work();
      } catch (error) {
        // What is started again, or told already, is no news.
        if (this.deaths === deaths)
          void vscode.window.showErrorMessage(`Kitproof ${failure}: ${inWords(error)}`);
      }
    });
    return this.turns;
  }

  /** Whether it does not run, and is not started again before somebody asks for it. */
  get isDown(): boolean {
    return this.gaveUp && !this.isRunning;
  }

  get isRunning(): boolean {
    return this.client.state === State.Running;
  }

  /** Asks the server; null where it does not run, was asked for something it does not know, or failed. */
  async ask<Answer>(
    request: string,
    parameters: unknown,
    token: vscode.CancellationToken,
  ): Promise<Answer | null> {
    if (!this.isRunning) return null;
    try {
      return (await this.client.sendRequest<Answer | null>(request, parameters, token)) ?? null;
    } catch {
      // Cancelled, or the server went away meanwhile: the next change asks again.
      return null;
    }
  }

  /** Asks the server for an edit and makes it; false where there is none, or the text changed meanwhile. */
  async edit(request: string, parameters: unknown): Promise<boolean> {
    const { token } = new vscode.CancellationTokenSource();
    const edit = await this.ask<WorkspaceEdit>(request, parameters, token);
    if (edit === null) return false;
    return vscode.workspace.applyEdit(await this.client.protocol2CodeConverter.asWorkspaceEdit(edit));
  }

  /** Has every document of the open folders checked; ends when their findings are there. */
  async checkWorkspace(): Promise<CheckedView | null> {
    await this.turns;
    if (!this.isRunning) await this.restart();
    const source = new vscode.CancellationTokenSource();
    const checked = await this.ask<CheckedView>(CHECK_REQUEST, {}, source.token);
    if (checked !== null) this.output.appendLine(checkedInWords(checked));
    return checked;
  }

  dispose(): void {
    for (const one of this.disposables) one.dispose();
    void this.client.dispose().catch(() => undefined);
  }
}

/** What is said of the rules, where the editor can show it: what is only on the network it would open outside. */
function catalogueOf(extension: vscode.Uri): string | null {
  if (/^https?$/.test(extension.scheme)) return null;
  return vscode.Uri.joinPath(extension, 'schemas', 'rules.md').toString();
}

const inWords = (error: unknown): string => (error instanceof Error ? error.message : String(error));
