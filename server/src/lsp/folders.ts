import {
  type ClientCapabilities,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type FileEvent,
  type WorkDoneProgressServerReporter,
} from 'vscode-languageserver/lib/common/api.js';
import { isYamlName } from '../workspace/document';
import { baseName, folderOf } from '../workspace/paths';
import { filesBelow, isIgnored } from '../workspace/scan';
import type { Context } from './context';
import { nameOfUri } from './uris';

/** Files that are read side by side. */
const AT_A_TIME = 32;

/** Whether a name is that of a settings file, which changes what all below it means. */
export const isSettingsName = (name: string): boolean =>
  baseName(name) === 'kitproof.yaml' || baseName(name) === 'kitproof.yml';

const inside = (folder: string, name: string): boolean =>
  name.startsWith(folder.endsWith('/') ? folder : `${folder}/`);

/** The folders that are open: which documents of ours are in them, and what changes there outside the editor. */
export class Folders {
  private readonly folders = new Set<string>();
  /** Documents of the folders that are to be checked though they are not open. */
  private readonly there = new Set<string>();
  private scanning: Promise<void> = Promise.resolve();

  constructor(private readonly context: Context) {}

  /** When all looking that was begun is done. */
  scanned(): Promise<void> {
    return this.scanning;
  }

  /** Whether a folder is one of those that are open. */
  isOpen(folder: string): boolean {
    return this.folders.has(folder);
  }

  /** Whether a document is checked even while it is not open. */
  has(name: string): boolean {
    return this.there.has(name);
  }

  /** All YAML files below the folders, and every open document. */
  async every(): Promise<readonly string[]> {
    const found = new Set(this.context.texts.open.keys());
    for (const folder of this.folders)
      for (const name of await filesBelow(this.context.texts, folder)) found.add(name);
    return [...found].sort();
  }

  /** The folders that are open at the start; `first` looks into them. */
  begin(uris: readonly string[]): void {
    for (const uri of uris) this.folders.add(withoutSlash(nameOfUri(uri)));
  }

  add(uris: readonly string[]): Promise<void> {
    for (const uri of uris) this.folders.add(withoutSlash(nameOfUri(uri)));
    return this.scan();
  }

  remove(uris: readonly string[]): Promise<void> {
    for (const uri of uris) this.folders.delete(withoutSlash(nameOfUri(uri)));
    return this.scan();
  }

  /** Looks again at which documents there are: folders, `ignore:` or a setting changed. */
  scan(progress: WorkDoneProgressServerReporter | null = null): Promise<void> {
    this.scanning = this.scanning.then(() => this.look(progress)).catch(() => undefined);
    return this.scanning;
  }

  /** The first look and the first check of everything, with progress where the client shows it. */
  async first(): Promise<void> {
    const { connection, client, checker } = this.context;
    if (client.window?.workDoneProgress !== true) {
      await this.scan();
      return;
    }
    const progress = await connection.window.createWorkDoneProgress();
    progress.begin('Kitproof', 0, 'Reading the guides', false);
    await this.scan(progress);
    const all = Math.max(1, checker.left);
    const tick = setInterval(() => {
      const done = Math.max(0, all - checker.left);
      progress.report(Math.floor((100 * done) / all), `Checking: ${done} of ${all}`);
    }, 200);
    await checker.whenAll();
    clearInterval(tick);
    progress.done();
  }

  /** Tells the client what to watch for us, where it can be told. */
  async watch(client: ClientCapabilities): Promise<void> {
    if (client.workspace?.didChangeWatchedFiles?.dynamicRegistration !== true) return;
    await this.context.connection.client.register(DidChangeWatchedFilesNotification.type, {
      watchers: [{ globPattern: '**/*.{yaml,yml}' }],
    });
  }

  /** Files changed, came or went outside the editor. */
  async changed(events: readonly FileEvent[]): Promise<void> {
    const { project, checker, texts } = this.context;
    let everything = false;
    for (const { uri, type } of events) {
      const name = nameOfUri(uri);
      if (!isYamlName(name)) {
        // A folder that went takes its files with it.
        if (type === FileChangeType.Deleted)
          for (const one of [...this.there])
            if (inside(name, one) && !texts.open.has(one)) await this.gone(one);
        continue;
      }
      if (texts.open.has(name)) continue;
      if (isSettingsName(name)) everything = true;
      if (type === FileChangeType.Deleted) {
        await this.gone(name);
        continue;
      }
      const before = (await project.open(name))?.kind ?? null;
      project.forget(name);
      const after = (await project.open(name))?.kind ?? null;
      if (await this.wanted(name)) {
        this.there.add(name);
        checker.add(name);
      } else this.leave(name);
      checker.touch(name);
      if (before === 'vehicle' || after === 'vehicle') checker.touchKits();
    }
    if (everything) {
      checker.touch('', true);
      await this.scan();
    }
  }

  private async gone(name: string): Promise<void> {
    const { project, checker } = this.context;
    const vehicle = (await project.open(name))?.kind === 'vehicle';
    project.forget(name);
    this.leave(name);
    checker.touch(name);
    if (vehicle) checker.touchKits();
  }

  private leave(name: string): void {
    this.there.delete(name);
    if (!this.context.texts.open.has(name)) this.context.checker.remove(name);
  }

  private async wanted(name: string): Promise<boolean> {
    const { project, settings } = this.context;
    if (!settings.values.checkWorkspace) return false;
    if (![...this.folders].some((folder) => inside(folder, name))) return false;
    return (await project.open(name)) !== null && !isIgnored(await project.configurationOf(name), name);
  }

  private async look(progress: WorkDoneProgressServerReporter | null): Promise<void> {
    const { checker, project, settings, texts } = this.context;
    const found = new Set<string>();
    if (settings.values.checkWorkspace) {
      for (const folder of [...this.folders].sort())
        for (const name of await filesBelow(texts, folder)) found.add(name);
    }
    const names = [...found];
    let read = 0;
    for (const name of found) {
      // Some at a time, side by side: where an editor is asked for them, each answer takes its time.
      if (read % AT_A_TIME === 0)
        await Promise.all(names.slice(read, read + AT_A_TIME).map((one) => project.open(one)));
      progress?.report(Math.floor((100 * read++) / found.size), `Reading: ${read} of ${found.size}`);
      if (!(await this.wanted(name))) continue;
      this.there.add(name);
      checker.add(name);
    }
    for (const name of [...this.there]) if (!found.has(name) || !(await this.wanted(name))) this.leave(name);
  }
}

/** A folder's name as the rest of the program has it; a root keeps its slash. */
const withoutSlash = (name: string): string =>
  name.endsWith('/') && folderOf(name) !== name ? name.slice(0, -1) : name;
