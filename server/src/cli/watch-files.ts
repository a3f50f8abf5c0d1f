import { type FSWatcher, watch } from 'chokidar';
import { isYamlName, SKIPPED_FOLDERS } from '../workspace/document';
import { baseName, folderOf, nameOfPath } from '../workspace/paths';

/** Milliseconds of quiet after a change before it is told: an editor saves in several strokes. */
const QUIET = 80;

/** YAML files that are looked after. What comes, goes or changes in quick succession is told at once, by name. */
export class WatchedFiles {
  private readonly roots = new Set<string>();
  private readonly folders = new Set<string>();
  private readonly changed = new Set<string>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly watcher: FSWatcher;

  /**
   * @param told gets the names.
   * @param failed gets a sentence where the machine watches no more.
   */
  constructor(told: (names: readonly string[]) => Promise<void>, failed: (sentence: string) => void) {
    this.watcher = watch([], {
      ignoreInitial: true,
      followSymlinks: false,
      ignorePermissionErrors: true,
      ignored: (path, stats) => this.isIgnored(nameOfPath(path), stats),
    });
    this.watcher.on('all', (_event, path) => {
      const name = nameOfPath(path);
      if (!isYamlName(name)) return;
      this.changed.add(name);
      clearTimeout(this.timer);
      this.timer = setTimeout(() => {
        const names = [...this.changed].sort();
        this.changed.clear();
        void told(names);
      }, QUIET);
    });
    this.watcher.on('error', (error) => failed(sentenceOf(error)));
  }

  /** Looks after a folder and all below, save hidden folders and those that no guide stands in. */
  below(folder: string): void {
    if (this.roots.has(folder)) return;
    this.roots.add(folder);
    this.watcher.add(folder);
  }

  /** Looks after the files of a folder itself. */
  within(folder: string): void {
    if (this.folders.has(folder) || this.isBelow(folder)) return;
    this.folders.add(folder);
    this.watcher.add(folder);
  }

  /** Whether a file stands below a folder that is looked after with all below. */
  isBelow(name: string): boolean {
    return [...this.roots].some((root) => isIn(root, name));
  }

  /** When all that is to be looked after is. */
  async ready(): Promise<void> {
    await new Promise<void>((resolve) => this.watcher.once('ready', () => resolve()));
  }

  async close(): Promise<void> {
    clearTimeout(this.timer);
    await this.watcher.close();
  }

  private isIgnored(name: string, stats: { isFile(): boolean; isDirectory(): boolean } | undefined): boolean {
    if (this.roots.has(name) || this.folders.has(name)) return false;
    if (stats?.isFile() === true && !isYamlName(name)) return true;
    const base = baseName(name);
    if (this.isBelow(name))
      return (
        stats?.isFile() !== true && (base.startsWith('.') || SKIPPED_FOLDERS.has(base)) && !isYamlName(base)
      );
    return !this.folders.has(folderOf(name)) || stats?.isDirectory() === true;
  }
}

const isIn = (folder: string, name: string): boolean =>
  name === folder || name.startsWith(folder.endsWith('/') ? folder : `${folder}/`);

function sentenceOf(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === 'ENOSPC' || code === 'EMFILE')
    return 'This machine watches no more files (its limit is reached), so changes in some are not seen.';
  return `Some files are not watched: ${String(message ?? error).split('\n')[0]}.`;
}
