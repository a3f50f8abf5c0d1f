import * as vscode from 'vscode';
import {
  CloseAction,
  ErrorAction,
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  State,
  TransportKind,
  type WorkspaceEdit,
} from 'vscode-languageclient/node';
import { CHECK_REQUEST, type CheckedView } from '../server/src/lsp/guide-view-types';

export const LANGUAGE = 'kitproof';

/** More crashes than this within five minutes, and the server stays down until it is asked for. */
const MOST_CRASHES = 4;
const CRASH_WINDOW = 5 * 60_000;

/** The language server as a process of its own, from the program beside the extension. */
export class LanguageServer implements vscode.Disposable {
  private readonly client: LanguageClient;
  private turns: Promise<void> = Promise.resolve();
  private readonly changed = new vscode.EventEmitter<void>();
  /** What was asked before may have another answer now: the server came or went, a text or a finding changed. */
  readonly onDidChange = this.changed.event;
  private readonly disposables: vscode.Disposable[] = [this.changed];

  constructor(context: vscode.ExtensionContext) {
    const module = context.asAbsolutePath('dist/cli.js');
    const run = { module, args: ['server'], transport: TransportKind.stdio };
    const server: ServerOptions = {
      run,
      debug: {
        ...run,
        options: { execArgv: ['--inspect=6069'], env: { ...process.env, KITPROOF_DEBUG: '1' } },
      },
    };
    const crashes: number[] = [];
    const options: LanguageClientOptions = {
      documentSelector: [{ language: LANGUAGE }],
      initializationOptions: { ...vscode.workspace.getConfiguration('kitproof') },
      // Without a section of settings to watch, the editor would not tell of their changes.
      synchronize: { configurationSection: 'kitproof' },
      outputChannelName: 'Kitproof',
      // Findings of files that are not open are asked for by the server's own scan of the folders.
      diagnosticPullOptions: { onChange: true, onSave: false },
      errorHandler: {
        error: () => ({ action: ErrorAction.Continue }),
        closed: () => {
          const now = Date.now();
          crashes.push(now);
          if (crashes.filter((then) => now - then < CRASH_WINDOW).length <= MOST_CRASHES)
            return { action: CloseAction.Restart, handled: true };
          return {
            action: CloseAction.DoNotRestart,
            message:
              'Kitproof stopped several times, so it was not started again. "Kitproof: Restart the server" tries once more.',
          };
        },
      },
    };
    this.client = new LanguageClient('kitproof', 'Kitproof', server, options);
    this.client.registerFeature({
      // What this client can do beside the protocol: ask why a finding is accepted.
      fillClientCapabilities: (capabilities) => {
        capabilities.experimental = { ...capabilities.experimental, kitproof: { waive: true } };
      },
      initialize: () => undefined,
      getState: () => ({ kind: 'static' }),
      clear: () => undefined,
    });
    this.disposables.push(
      this.client.onDidChangeState(() => this.changed.fire()),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.languageId === LANGUAGE && contentChanges.length > 0) this.changed.fire();
      }),
      vscode.languages.onDidChangeDiagnostics(() => this.changed.fire()),
    );
  }

  start(): Promise<void> {
    return this.turn('could not be started', () => this.client.start());
  }

  restart(): Promise<void> {
    return this.turn('could not be started again', () =>
      this.client.state === State.Stopped ? this.client.start() : this.client.restart(),
    );
  }

  /** One at a time: a server that is about to start can be neither stopped nor asked. */
  private turn(failure: string, work: () => Promise<void>): Promise<void> {
    this.turns = this.turns.then(work).catch((error: unknown) => {
      void vscode.window.showErrorMessage(`Kitproof ${failure}: ${inWords(error)}`);
    });
    return this.turns;
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
    return this.ask<CheckedView>(CHECK_REQUEST, {}, source.token);
  }

  dispose(): void {
    for (const one of this.disposables) one.dispose();
    void this.client.dispose().catch(() => undefined);
  }
}

const inWords = (error: unknown): string => (error instanceof Error ? error.message : String(error));
