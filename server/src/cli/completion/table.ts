import type { Command } from '../command';

/** What a shell completes of one command. */
export interface Completed {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly CompletedOption[];
  readonly parts: readonly {
    readonly name: string;
    readonly summary: string;
    readonly options: readonly CompletedOption[];
  }[];
}

export interface CompletedOption {
  readonly name: string;
  /** The beginning of what help says of it. */
  readonly says: string;
  /** Whether it takes a value, and of which words; of none where anything will do. */
  readonly takes: readonly string[] | null;
  readonly repeated: boolean;
}

/** Said in these words, where help has no room but for what they take. */
const PLAIN: Readonly<Record<string, string>> = {
  format: 'the form of what is printed',
  color: 'when to print in colour',
};

/** From the tables that the parser reads by. An option that help does not name is for programs, and is not offered. */
export function completed(command: Command): Completed {
  const said = describedIn(command.help, command.options);
  const options = Object.entries(command.options).flatMap(([name, { type, multiple }]): CompletedOption[] => {
    const says = said.has(name) ? (PLAIN[name] ?? said.get(name)) : undefined;
    if (says === undefined) return [];
    const takes = type === 'boolean' ? null : (command.choices?.[name] ?? []);
    return [{ name, says, takes, repeated: multiple === true }];
  });
  const parts = (command.parts ?? []).map(({ name, summary, options: own }) => ({
    name,
    summary,
    options: options.filter((option) => own?.includes(option.name) ?? true),
  }));
  return { name: command.name, summary: command.summary, options, parts };
}

/** What help says of each option, up to the first stop: `--at STEP    one step only, by its id` gives `one step only`. */
export function describedIn(help: string, options: Command['options']): ReadonlyMap<string, string> {
  const said = new Map<string, string>();
  const lines = help.split('\n');
  for (const [index, line] of lines.entries()) {
    if (!line.startsWith('  --')) continue;
    const names: string[] = [];
    let rest = line.trim();
    while (rest.startsWith('--')) {
      const end = /[^a-z-]/.exec(rest)?.index ?? rest.length;
      names.push(rest.slice(2, end));
      rest = rest.slice(end).replace(/^, /, '');
    }
    // The name of its value stands before what is said.
    const takes = names.some((name) => options[name]?.type === 'string') && !rest.startsWith('  ');
    const words = rest.trim().split(' ');
    const first = (takes ? words.slice(1) : words).join(' ').trim();
    const next = lines[index + 1] ?? '';
    const more = next.startsWith('                 ') ? ` ${next.trim()}` : '';
    for (const name of names) said.set(name, `${first}${more}`.split(/[;:.,(]/)[0]!.trim());
  }
  return said;
}

/** Whether an option takes a value that no list has. */
export const isFree = ({ takes }: CompletedOption): boolean => takes !== null && takes.length === 0;
