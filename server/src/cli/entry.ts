import { mkdir, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import process from 'node:process';
import { text } from 'node:stream/consumers';
import { glob } from 'tinyglobby';
import { diskFiles } from '../workspace/disk';
import { nameOfPath } from '../workspace/paths';
import { printPdf } from '../workspace/print-pdf';
import { localDay } from '../workspace/today';
import type { Io } from './io';
import { main } from './main';

/** The program: the machine's files and streams around `main`. */
const io: Io = {
  files: diskFiles,
  folder: nameOfPath(process.cwd()),
  glob: async (patterns) =>
    (await glob([...patterns], { absolute: true, dot: false, expandDirectories: false }))
      .map(nameOfPath)
      .sort(),
  async create(name, content) {
    await mkdir(dirname(name), { recursive: true });
    try {
      await writeFile(name, content, { flag: 'wx' });
      return true;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
      throw error;
    }
  },
  async replace(name, content) {
    // A link stays one, and what it leads to keeps its mode. A rename is whole or not at all.
    const file = await realpath(name);
    const found = await stat(file);
    // A device or a pipe (`/dev/null`) is written to, never replaced.
    if (!found.isFile()) {
      await writeFile(file, content);
      return;
    }
    const beside = join(dirname(file), `.${basename(file)}.${process.pid}`);
    try {
      await writeFile(beside, content, { flag: 'wx', mode: found.mode });
      await rename(beside, file);
    } catch (error) {
      await rm(beside, { force: true });
      throw error;
    }
  },
  printPdf: (page) => printPdf(page, process.env),
  readInput: () => text(process.stdin),
  out: (content) => process.stdout.write(content),
  outBytes: (content) => process.stdout.write(content),
  err: (content) => process.stderr.write(content),
  untilInterrupted: () =>
    new Promise((resolve) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    }),
  outIsTerminal: process.stdout.isTTY === true,
  errIsTerminal: process.stderr.isTTY === true,
  columns: process.stdout.columns ?? null,
  environment: process.env,
  today: localDay(new Date()),
};

// A reader that closed the pipe (`| head`) is not a fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? 0 : 3);
});

process.exitCode = await main(process.argv.slice(2), io);
