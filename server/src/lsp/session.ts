import {
  type ClientCapabilities,
  type Connection,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver/lib/common/api.js';
import { Lines } from '../text/lines';
import { Checker } from '../workspace/checker';
import { EditorFiles, OpenText } from '../workspace/editor';
import { Guides } from '../workspace/guides';
import { standardPacks } from '../workspace/packs';
import { Project } from '../workspace/project';
import { NameIndex } from '../workspace/uses';
import { ClientFiles, filesFor } from './client-files';
import { type Context, type Host, rangeOf } from './context';
import { Decorations } from './decorations';
import { features } from './features';
import { Folders, isSettingsName } from './folders';
import { Pulling } from './pulling';
import { Pushing } from './pushing';
import { Rehearsal } from './rehearsal';
import { Reports } from './reports';
import { RulePages } from './rule-pages';
import { Settings } from './settings';
import { nameOfUri, uriOfName } from './uris';

/**
 * One client and its documents. Knows the protocol and nothing of the machine, so that a process and a browser worker
 * host it alike. Begins with `connection.listen()` by whoever made it.
 */
export function startSession(connection: Connection, host: Host): void {
  connection.onInitialize((parameters): InitializeResult => {
    const session = new Session(connection, host, parameters);
    return {
      capabilities: session.capabilities(),
      serverInfo: { name: 'kitproof', version: host.version },
    };
  });
}

class Session implements Context {
  readonly client: ClientCapabilities;
  readonly texts: EditorFiles;
  readonly project: Project;
  readonly checker: Checker;
  readonly guides: Guides;
  readonly settings = new Settings();
  readonly names = new NameIndex();
  readonly rulePages: RulePages;
  readonly printPdf: Context['printPdf'];
  readonly filesAt: Context['filesAt'];
  private readonly folders: Folders;
  private readonly clientFiles: ClientFiles;
  private readonly decorations: Decorations;
  private readonly pulls: boolean;
  private readonly uris = new Map<string, string>();

  constructor(
    readonly connection: Connection,
    private readonly host: Host,
    parameters: InitializeParams,
  ) {
    this.client = parameters.capabilities;
    this.printPdf = host.printPdf ?? null;
    this.filesAt = host.filesAt ?? null;
    this.settings.take(parameters.initializationOptions);
    this.pulls = this.client.textDocument?.diagnostic !== undefined;
    this.clientFiles = new ClientFiles(connection, this.client, (folder) => this.folders.isOpen(folder));
    this.texts = new EditorFiles(filesFor(host.files, this.clientFiles));
    this.project = new Project(this.texts, standardPacks());
    this.guides = new Guides(this.project);
    this.folders = new Folders(this);
    this.decorations = new Decorations(this);
    this.rulePages = new RulePages(this, host.catalogue ?? catalogueIn(parameters));
    const reports = new Reports(this);
    const rehearsal = host.isQuiet && new Rehearsal(this, host.isQuiet);
    const outlet = this.pulls
      ? new Pulling(this, reports, () => this.folders.scanned())
      : new Pushing(this, reports);
    this.checker = new Checker(
      this.project,
      () => this.today(),
      (name) => this.texts.open.has(name),
      (names, edited) => {
        outlet.answered(names, edited);
        this.decorations.answered(names, edited);
        for (const name of edited) void rehearsal?.begin(name);
      },
    );
    if (outlet instanceof Pulling) outlet.register(connection);
    this.listenToTexts();
    this.listenToFolders(parameters);
    for (const feature of features) feature.register(connection, this);
    connection.onShutdown(() => this.checker.stop());
  }

  capabilities(): ServerCapabilities {
    const capabilities: ServerCapabilities = {
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    };
    if (this.pulls)
      capabilities.diagnosticProvider = {
        identifier: 'kitproof',
        interFileDependencies: true,
        workspaceDiagnostics: true,
      };
    for (const feature of features) {
      const { workspace, ...more } = feature.capabilities(this.client);
      Object.assign(capabilities, more);
      Object.assign(capabilities.workspace!, workspace);
    }
    return capabilities;
  }

  document(uri: string): ReturnType<Project['open']> {
    return this.project.open(nameOfUri(uri));
  }

  today(): string {
    return this.host.today();
  }

  everyDocument(): Promise<readonly string[]> {
    return this.folders.every();
  }

  uriOf(name: string): string {
    return this.uris.get(name) ?? uriOfName(name);
  }

  async linesOf(name: string): Promise<Lines | null> {
    const document = await this.project.open(name);
    if (document !== null) return document.lines;
    const text = await this.texts.read(name);
    return text === null ? null : new Lines(text);
  }

  async location(place: Parameters<Context['location']>[0]): ReturnType<Context['location']> {
    const lines = await this.linesOf(place.uri);
    return lines === null ? null : { uri: this.uriOf(place.uri), range: rangeOf(lines, place.span) };
  }

  private listenToTexts(): void {
    const { connection, texts } = this;
    connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => {
      const name = nameOfUri(uri);
      this.uris.set(name, uri);
      const opened = new OpenText(name, uri, version, text);
      texts.open.set(name, opened);
      this.checker.add(name);
      this.edited(opened);
    });
    connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
      const opened = texts.open.get(nameOfUri(uri));
      if (opened === undefined) return;
      opened.change(contentChanges, version);
      this.edited(opened);
    });
    connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
      const name = nameOfUri(uri);
      const opened = texts.open.get(name);
      if (opened === undefined) return;
      const vehicle = opened.document()?.kind === 'vehicle';
      texts.open.delete(name);
      this.uris.delete(name);
      this.project.forget(name);
      this.checker.touch(name, isSettingsName(name));
      if (!this.folders.has(name)) this.checker.remove(name);
      if (vehicle) this.checker.touchKits();
    });
  }

  private edited(opened: OpenText): void {
    const { name } = opened;
    const document = opened.document();
    this.project.hold(name, opened.text, document);
    this.checker.touch(name, isSettingsName(name));
    if (document?.kind === 'vehicle') this.checker.touchKits();
    if (isSettingsName(name)) void this.folders.scan();
  }

  private listenToFolders(parameters: InitializeParams): void {
    const { connection, folders } = this;
    const given =
      parameters.workspaceFolders?.map(({ uri }) => uri) ?? (parameters.rootUri ? [parameters.rootUri] : []);
    connection.onInitialized(async () => {
      await this.settings.refresh(connection, this.client);
      if (this.client.workspace?.workspaceFolders === true)
        connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
          void folders.remove(removed.map(({ uri }) => uri));
          void folders.add(added.map(({ uri }) => uri));
        });
      folders.begin(given);
      await folders.first();
      await folders.watch(this.client);
    });
    connection.onDidChangeConfiguration(async ({ settings }) => {
      await this.settings.refresh(connection, this.client, settings);
      this.decorations.refresh();
      await folders.scan();
    });
    connection.onDidChangeWatchedFiles(({ changes }) => {
      this.clientFiles.forget();
      return folders.changed(changes);
    });
  }
}

/** The name of the catalogue of rules that a client brings along. */
function catalogueIn({ initializationOptions }: InitializeParams): string | null {
  const uri = (initializationOptions as { catalogue?: unknown } | null | undefined)?.catalogue;
  return typeof uri === 'string' ? nameOfUri(uri) : null;
}
