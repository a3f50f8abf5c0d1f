import type { Completed, CompletedOption } from './table';

/** A script for fish. Where anything may stand, the shell completes names of files. */
export function fishScript(commands: readonly Completed[]): string {
  const first = [...commands, { name: 'help', summary: 'all about a command' }].map(({ name, summary }) =>
    line('__fish_use_subcommand', `-f -a ${name}`, summary),
  );
  const help = commands.map(({ name, summary }) =>
    line('__fish_seen_subcommand_from help', `-f -a ${name}`, summary),
  );
  return `${[
    '# Completes kitproof in fish: kitproof completion fish > ~/.config/fish/completions/kitproof.fish',
    ...first,
    line('__fish_use_subcommand', '-l version', 'the version'),
    "complete -c kitproof -l help -d 'all about it'",
    ...help,
    ...commands.flatMap(linesOf),
  ].join('\n')}\n`;
}

function linesOf({ name, options, parts }: Completed): string[] {
  const seen = `__fish_seen_subcommand_from ${name}`;
  if (parts.length === 0) return options.map((option) => optionLine(seen, option));
  const names = parts.map((part) => part.name).join(' ');
  return [
    ...parts.map((part) =>
      line(`${seen}; and not __fish_seen_subcommand_from ${names}`, `-f -a ${part.name}`, part.summary),
    ),
    ...parts.flatMap((part) =>
      part.options.map((option) =>
        optionLine(`${seen}; and __fish_seen_subcommand_from ${part.name}`, option),
      ),
    ),
  ];
}

function optionLine(condition: string, { name, says, takes }: CompletedOption): string {
  const value = takes === null ? '' : takes.length === 0 ? ' -r -F' : ` -x -a ${quoted(takes.join(' '))}`;
  return line(condition, `-l ${name}${value}`, says);
}

const line = (condition: string, what: string, says: string): string =>
  `complete -c kitproof -n ${quoted(condition)} ${what} -d ${quoted(says)}`;
const quoted = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
