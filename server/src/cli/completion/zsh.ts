import type { Completed, CompletedOption } from './table';

/** A script for zsh: sourced behind compinit, or put into a folder of fpath as `_kitproof`. */
export function zshScript(commands: readonly Completed[]): string {
  const all = commands.map(({ name, summary }) => item(name, summary));
  return `#compdef kitproof
# Completes kitproof in zsh: source <(kitproof completion zsh)
_kitproof() {
  local -a found
  if (( CURRENT == 2 )); then
    found=(
${[...all, item('help', 'all about a command')].map((one) => `      ${one}`).join('\n')}
    )
    _describe -t commands command found
    _arguments '--help[what there is]' '--version[the version]'
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
${commands.map(caseOf).join('\n')}
    help)
      found=(
${all.map((one) => `        ${one}`).join('\n')}
      )
      (( CURRENT == 2 )) && _describe -t commands command found ;;
  esac
}
if [[ $funcstack[1] == _kitproof ]]; then _kitproof "$@"; else compdef _kitproof kitproof; fi
`;
}

function caseOf({ name, options, parts }: Completed): string {
  if (parts.length === 0) return `    ${name})\n${argumentsOf(options, '      ')} ;;`;
  return `    ${name})
      if (( CURRENT == 2 )); then
        found=(
${parts.map((part) => `          ${item(part.name, part.summary)}`).join('\n')}
        )
        _describe -t parts ${name} found
        return
      fi
      command=$words[2]
      shift words
      (( CURRENT-- ))
      case $command in
${parts.map((part) => `        ${part.name})\n${argumentsOf(part.options, '          ')} ;;`).join('\n')}
      esac ;;`;
}

function argumentsOf(options: readonly CompletedOption[], indent: string): string {
  const specs = options.map(({ name, says, takes, repeated }) => {
    const many = repeated ? '*' : '';
    const value = takes === null ? '' : takes.length === 0 ? ':value:_files' : `:value:(${takes.join(' ')})`;
    return quoted(`${many}--${name}${takes === null ? '' : '='}[${bracketed(says)}]${value}`);
  });
  const lines = [...specs, quoted('--help[all about it]'), quoted('*:file:_files')];
  return `${indent}_arguments ${lines.join(` \\\n${indent}  `)}`;
}

const item = (name: string, says: string): string => quoted(`${name}:${says.replaceAll(':', '\\:')}`);
const bracketed = (text: string): string => text.replaceAll(/[[\]:\\]/g, '\\$&');
const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;
