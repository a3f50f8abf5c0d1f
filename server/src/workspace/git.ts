import { type ChildProcessWithoutNullStreams, execFile, spawn } from 'node:child_process';
import process from 'node:process';

/** What git cannot give, in one sentence for the one who asked. */
export class RevisionError extends Error {}

const NO_GIT = 'git is not installed here, or not on the PATH; revisions are read through it.';

/** Messages in plain English to tell them apart, no lock on the index for mere looking, and no question at a terminal. */
const environment = (): NodeJS.ProcessEnv => ({
  ...process.env,
  LC_ALL: 'C',
  GIT_OPTIONAL_LOCKS: '0',
  GIT_TERMINAL_PROMPT: '0',
});

/** Settings of a repository that would start programs when somebody only looks at it. */
const HARMLESS = ['-c', 'core.fsmonitor=false', '-c', 'core.quotePath=false'];

export interface GitAnswer {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs git in a folder, without a shell. A status other than 0 is an answer too; where git is not there it throws a `RevisionError`. */
export function git(folder: string, words: readonly string[]): Promise<GitAnswer> {
  return new Promise((resolve, reject) => {
    execFile(
      'git',
      [...HARMLESS, ...words],
      { cwd: folder, env: environment(), maxBuffer: Number.POSITIVE_INFINITY, windowsHide: true },
      (error, out, err) => {
        const code = error?.code as string | number | undefined;
        if (code === 'ENOENT') reject(new RevisionError(NO_GIT));
        else if (error !== null && typeof code !== 'number')
          reject(new RevisionError(`git: ${error.message}`));
        else resolve({ status: typeof code === 'number' ? code : 0, out, err });
      },
    );
  });
}

/** What git says, or its first complaint as a `RevisionError`. */
export async function gitOrThrow(folder: string, words: readonly string[]): Promise<string> {
  const { status, out, err } = await git(folder, words);
  if (status === 0) return out;
  const complaint = err.split('\n').find((line) => line.trim() !== '') ?? `git ${words[0]} failed`;
  throw new RevisionError(`${complaint.replace(/^(fatal|error): /, 'git says: ').replace(/\.?$/, '.')}`);
}

/** Objects of a repository by their ids, through one git process that stays while somebody asks and keeps nobody from ending. */
export class Objects {
  private child: ChildProcessWithoutNullStreams | null = null;
  private readonly waiting: Waiting[] = [];
  private buffered: Buffer[] = [];
  private size = 0;
  /** Bytes without which the next answer is not whole. */
  private needed = 0;

  constructor(private readonly folder: string) {}

  /** The content of an object, null where the repository has none such. */
  read(id: string): Promise<Buffer | null> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ resolve, reject });
      const child = this.running();
      hold(child, true);
      child.stdin.write(`${id}\n`);
    });
  }

  /** Ends the process once it has answered; do not read after that. */
  close(): void {
    this.child?.stdin.end();
  }

  private running(): ChildProcessWithoutNullStreams {
    if (this.child !== null) return this.child;
    const child = spawn('git', [...HARMLESS, 'cat-file', '--batch'], {
      cwd: this.folder,
      env: environment(),
      windowsHide: true,
    });
    const failed = (message: string) => {
      this.child = null;
      this.buffered = [];
      this.size = 0;
      this.needed = 0;
      for (const { reject } of this.waiting.splice(0)) reject(new RevisionError(message));
    };
    child.on('error', () => failed(NO_GIT));
    child.on('close', () => failed('git ended before it had given all files of the revision.'));
    child.stdin.on('error', () => {});
    child.stderr.resume();
    child.stdout.on('data', (chunk: Buffer) => {
      this.buffered.push(chunk);
      this.size += chunk.length;
      this.answer();
      if (this.waiting.length === 0) hold(child, false);
    });
    this.child = child;
    return child;
  }

  /** Takes `ID blob SIZE`, a line feed, the content and a line feed for each that waits, as far as they have come. */
  private answer(): void {
    while (this.waiting.length > 0) {
      if (this.needed > this.size) return;
      const data = this.buffered.length === 1 ? this.buffered[0]! : Buffer.concat(this.buffered);
      this.buffered = [data];
      const end = data.indexOf('\n');
      if (end < 0) return;
      const words = data.toString('utf8', 0, end).split(' ');
      const length = words.length === 3 ? Number(words[2]) : null;
      const after = length === null ? end + 1 : end + 1 + length + 1;
      if (data.length < after) {
        this.needed = after;
        return;
      }
      this.needed = 0;
      this.buffered = [data.subarray(after)];
      this.size = data.length - after;
      this.waiting.shift()!.resolve(length === null ? null : data.subarray(end + 1, after - 1));
    }
  }
}

interface Waiting {
  readonly resolve: (content: Buffer | null) => void;
  readonly reject: (error: Error) => void;
}

/** Whether the program goes on while a process and its pipes are there. */
function hold(child: ChildProcessWithoutNullStreams, held: boolean): void {
  for (const one of [child, child.stdin, child.stdout, child.stderr] as unknown as NodeJS.ReadStream[]) {
    if (held) one.ref?.();
    else one.unref?.();
  }
}
