import { type ChildProcess, spawn } from 'node:child_process';
import { PassThrough } from 'node:stream';
import {
  type ClientCapabilities,
  createConnection,
  createMessageConnection,
  type Diagnostic,
  type InitializeResult,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';
import type { Host } from '../../server/src/lsp/context';
import { startSession } from '../../server/src/lsp/session';
import { memoryFiles } from '../../server/src/workspace/memory';

/** A client that takes findings as they are pushed, and little else. */
export const PUSHED: ClientCapabilities = {
  textDocument: { publishDiagnostics: { relatedInformation: true } },
};

/** A client that pulls findings, as a large editor does. */
export const PULLING: ClientCapabilities = {
  workspace: { diagnostics: { refreshSupport: true }, workspaceFolders: true },
  textDocument: { diagnostic: { relatedDocumentSupport: true } },
};

/** A client at the other end of a real protocol. */
export class Client {
  readonly pushes: PublishDiagnosticsParams[] = [];
  /** What else the server asked or told, by method. */
  readonly told: { readonly method: string; readonly parameters: unknown }[] = [];
  readonly answers = new Map<string, (parameters: unknown) => unknown>();
  initialized!: InitializeResult;
  private readonly versions = new Map<string, number>();
  private readonly waiting = new Set<() => void>();

  constructor(
    readonly connection: MessageConnection,
    private readonly ended: () => Promise<void>,
  ) {
    connection.onNotification('textDocument/publishDiagnostics', (parameters: PublishDiagnosticsParams) => {
      this.pushes.push(parameters);
      for (const look of [...this.waiting]) look();
    });
    connection.onNotification((method, parameters) => {
      this.told.push({ method, parameters });
      for (const look of [...this.waiting]) look();
    });
    connection.onUnhandledProgress(({ token, value }) => {
      this.told.push({ method: '$/progress', parameters: { token, value } });
      for (const look of [...this.waiting]) look();
    });
    connection.onRequest((method, parameters) => {
      this.told.push({ method, parameters });
      for (const look of [...this.waiting]) look();
      return this.answers.get(method)?.(parameters) ?? null;
    });
    connection.listen();
  }

  async start(
    capabilities: ClientCapabilities,
    folders: readonly string[] = [],
    more: object = {},
  ): Promise<this> {
    this.initialized = await this.connection.sendRequest('initialize', {
      processId: null,
      rootUri: null,
      capabilities,
      workspaceFolders: folders.map((uri) => ({ uri, name: uri })),
      ...more,
    });
    await this.connection.sendNotification('initialized', {});
    return this;
  }

  async open(uri: string, text: string, version = 1): Promise<void> {
    this.versions.set(uri, version);
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'kitproof', version, text },
    });
  }

  /** Sends changes and gives the version they make. */
  async change(uri: string, ...contentChanges: object[]): Promise<number> {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges,
    });
    return version;
  }

  async close(uri: string): Promise<void> {
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  /** The first push, of those that came or will come, that is as wanted. */
  async push(
    uri: string,
    wanted: (push: PublishDiagnosticsParams) => boolean = () => true,
  ): Promise<Diagnostic[]> {
    const found = () => [...this.pushes].reverse().find((one) => one.uri === uri && wanted(one));
    await this.until(() => found() !== undefined, `findings for ${uri}`);
    return found()!.diagnostics;
  }

  async until(holds: () => boolean, what: string, time = 20_000): Promise<void> {
    if (holds()) return;
    await new Promise<void>((resolve, reject) => {
      const stop = setTimeout(() => {
        this.waiting.delete(look);
        reject(new Error(`No ${what} came.`));
      }, time);
      const look = () => {
        if (!holds()) return;
        clearTimeout(stop);
        this.waiting.delete(look);
        resolve();
      };
      this.waiting.add(look);
    });
  }

  request<Result>(method: string, parameters: object): Promise<Result> {
    return this.connection.sendRequest(method, parameters);
  }

  /** Ends the session as the protocol wants it. */
  async end(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    await this.ended();
    this.connection.dispose();
  }
}

/** A server in this process, over files in memory; the protocol between is the real one. */
export function inMemory(
  contents: ReadonlyMap<string, string>,
  catalogue: string | null = null,
  today = '2026-03-14',
  host: Partial<Host> = {},
): Client {
  const toServer = new PassThrough();
  const toClient = new PassThrough();
  const server = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient));
  // The node side ends the process at `exit`; here the process is the test's.
  startSession(server, {
    files: memoryFiles(contents),
    today: () => today,
    version: '0',
    catalogue,
    ...host,
  });
  server.listen();
  const connection = createMessageConnection(
    new StreamMessageReader(toClient),
    new StreamMessageWriter(toServer),
  );
  const client = new Client(connection, async () => undefined);
  client.end = async () => {
    await connection.sendRequest('shutdown');
    connection.dispose();
    server.dispose();
  };
  return client;
}

/** A server in a process of its own. */
export function inProcess(program: string): { client: Client; child: ChildProcess } {
  const child = spawn(process.execPath, [program, 'server', '--stdio'], { stdio: ['pipe', 'pipe', 'pipe'] });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout!),
    new StreamMessageWriter(child.stdin!),
  );
  const exited = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return { client: new Client(connection, () => exited), child };
}
