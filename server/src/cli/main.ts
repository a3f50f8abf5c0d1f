import { version } from '../../../package.json';
import { calcCommand } from './calc';
import { checkCommand } from './check';
import { type Command, nearestWord, readArguments } from './command';
import { compareCommand } from './compare';
import { completionCommand } from './completion';
import { guideCommand } from './guide';
import { initCommand } from './init';
import { EXIT, type Exit, type Io, ReadError, UsageError } from './io';
import { labourCommand } from './labour';
import { listsCommand } from './lists';
import { reviewCommand } from './review';
import { rulesCommand } from './rules';
import { serverCommand } from './server';
import { traceCommand } from './trace';
import { padded } from './width';

/** Every command, in the order in which help lists them. */
export const commands: readonly Command[] = [
  checkCommand,
  labourCommand,
  traceCommand,
  guideCommand,
  listsCommand,
  compareCommand,
  reviewCommand,
  rulesCommand,
  calcCommand,
  initCommand,
  completionCommand(() => commands),
  serverCommand,
];

/** Runs one command line, without the program's own name, and gives the exit status. Never throws. */
export async function main(words: readonly string[], io: Io): Promise<Exit> {
  try {
    return await dispatch(words, io);
  } catch (error) {
    if (error instanceof UsageError) {
      const own = commands.some(({ name }) => name === words[0]) ? ` ${words[0]}` : '';
      io.err(`kitproof: ${error.message} Try kitproof${own} --help.\n`);
      return EXIT.usage;
    }
    if (error instanceof ReadError) {
      io.err(`kitproof: ${error.message}\n`);
      return EXIT.failed;
    }
    const debug = (io.environment.KITPROOF_DEBUG ?? '') !== '';
    const sentence = error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
    io.err(
      debug && error instanceof Error
        ? `${error.stack}\n`
        : `kitproof: an internal fault: ${sentence} (set KITPROOF_DEBUG=1 to see where)\n`,
    );
    return EXIT.failed;
  }
}

async function dispatch(words: readonly string[], io: Io): Promise<Exit> {
  const [first, ...rest] = words;
  if (first === undefined) {
    io.err(overview());
    return EXIT.usage;
  }
  if (first === '--help' || first === '-h') return said(io, overview());
  if (first === '--version' || first === '-v') return said(io, `${version}\n`);
  if (first === 'help') {
    const about = commands.find((command) => command.name === rest[0]);
    if (rest[0] !== undefined && about === undefined) throw unknown(rest[0]);
    return said(io, about?.help ?? overview());
  }
  const command = commands.find((one) => one.name === first);
  if (command === undefined) throw unknown(first);
  const end = rest.indexOf('--');
  const own = end < 0 ? rest : rest.slice(0, end);
  if (own.includes('--help') || own.includes('-h')) return said(io, command.help);
  return command.run(readArguments(command.words?.(rest) ?? rest, command.options), io);
}

function said(io: Io, text: string): Exit {
  io.out(text);
  return EXIT.clean;
}

function unknown(word: string): UsageError {
  if (word.startsWith('-')) return new UsageError(`A command comes first; ${word} is none.`);
  const near = nearestWord(
    word,
    commands.map((command) => command.name),
  );
  if (near !== undefined) return new UsageError(`There is no command "${word}"; did you mean ${near}?`);
  const looksLikePath = word.includes('.') || word.includes('/');
  return new UsageError(
    `There is no command "${word}"${looksLikePath ? `; did you mean kitproof check ${word}?` : '.'}`,
  );
}

function overview(): string {
  const width = Math.max(...commands.map((command) => command.name.length));
  return `kitproof COMMAND …

Proofreads install guides for vehicle kits: what is out of order, for which vehicles,
why, what is left open at the end, and how long the job takes.

${commands.map((command) => `  ${padded(command.name, width)}  ${command.summary}`).join('\n')}

  kitproof COMMAND --help   tells all about one command
  kitproof --version        prints the version

Start with
  kitproof init my-kit      a small vehicle, kit and guide to change into your own
  kitproof check my-kit     what is wrong with them

Exit status: 0 done, and check found nothing at or above --fail-on; 1 it did, or less
could be checked than --require-cover asks; 2 wrong usage; 3 something could not be read
or written, is no document of ours, or an internal fault. Kitproof certifies nothing: the
vehicle maker's data, local rules and a qualified person come first.
`;
}
