import { type ParseArgsConfig, parseArgs } from 'node:util';
import { closest, distance } from 'fastest-levenshtein';
import { type Exit, type Io, UsageError } from './io';

export type Options = NonNullable<ParseArgsConfig['options']>;

export interface Arguments {
  readonly positionals: readonly string[];
  /** The value of an option, the last where it stands twice; undefined where it is not given. */
  text(name: string): string | undefined;
  texts(name: string): readonly string[];
  flag(name: string): boolean;
}

/** A command of the command line: one file each, registered in `main.ts`. */
export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** What `--help` prints, whole. */
  readonly help: string;
  readonly options: Options;
  /** What an option takes, where that is one of a few words. */
  readonly choices?: Readonly<Record<string, readonly string[]>>;
  /** The words of which one stands first behind the command, where it is so. */
  readonly parts?: readonly CommandPart[];
  /** Puts the words in order before options are read from them, where people type otherwise than programs do. */
  words?(words: readonly string[]): readonly string[];
  run(args: Arguments, io: Io): Promise<Exit>;
}

export interface CommandPart {
  readonly name: string;
  readonly summary: string;
  /** The options that go with it; where it is not said, all of the command. */
  readonly options?: readonly string[];
}

/** Reads the words of a command line. Wrong ones are a `UsageError` that names the nearest right one. */
export function readArguments(words: readonly string[], options: Options): Arguments {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      options,
      allowPositionals: true,
      strict: true,
    });
    const texts = (name: string): string[] => {
      const value = values[name];
      const list = Array.isArray(value) ? value : value === undefined ? [] : [value];
      return list.filter((item): item is string => typeof item === 'string');
    };
    return {
      positionals,
      texts,
      text: (name) => texts(name).at(-1),
      flag: (name) => values[name] === true,
    };
  } catch (error) {
    throw new UsageError(usageSentence(error, words, options));
  }
}

/** The value of an option that takes one of a few words. */
export function choiceOf<Word extends string>(
  args: Arguments,
  name: string,
  words: readonly Word[],
  otherwise: Word,
): Word {
  const value = args.text(name);
  if (value === undefined) return otherwise;
  const found = words.find((word) => word === value) ?? words.find((word) => word === value.toLowerCase());
  if (found === undefined)
    throw new UsageError(`--${name} takes ${words.join(', ')}; "${value}" is none of them.`);
  return found;
}

/** The nearest of some words to one that was mistyped, undefined where none is near. */
export function nearestWord(word: string, words: readonly string[]): string | undefined {
  if (words.length === 0 || word.length > 60) return undefined;
  const near = closest(word, words as string[]);
  return distance(word, near) <= Math.max(2, Math.floor(word.length / 3)) ? near : undefined;
}

function usageSentence(error: unknown, words: readonly string[], options: Options): string {
  const names = Object.keys(options);
  for (const word of words) {
    if (word === '--') break;
    if (!word.startsWith('--')) continue;
    const name = word.slice(2).split('=')[0]!;
    const option = options[name];
    if (option === undefined) {
      const near = nearestWord(name, names);
      return `There is no option --${name}${near === undefined ? '' : `; did you mean --${near}?`}`.replace(
        /([^?])$/,
        '$1.',
      );
    }
  }
  const bad = wrongValue(words, options);
  if (bad !== undefined) return bad;
  const code = (error as { code?: unknown }).code;
  const message = error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') return `${message.split('. ')[0]!}.`;
  return message.endsWith('.') ? message : `${message}.`;
}

/** What is wrong with the value of an option: it has none, or has one that it cannot take. */
function wrongValue(words: readonly string[], options: Options): string | undefined {
  for (const [at, word] of words.entries()) {
    if (word === '--') break;
    const [, name = '', given] = /^--([^=]+)(=.*)?$/s.exec(word) ?? [];
    const option = options[name];
    if (option === undefined) continue;
    if (option.type === 'boolean' && given !== undefined) return `--${name} stands alone; it takes no value.`;
    if (option.type !== 'string' || given !== undefined) continue;
    const next = words[at + 1];
    if (next === undefined) return `--${name} needs a value behind it.`;
    if (next.startsWith('-') && next !== '-')
      return `--${name} needs a value behind it, and "${next}" looks like another option; if it is the value, write --${name}=${next}.`;
  }
  return undefined;
}
