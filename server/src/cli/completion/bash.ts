import { type Completed, type CompletedOption, isFree } from './table';

/** A script for bash, from 3.2. Where anything may stand, the shell completes names of files. */
export function bashScript(commands: readonly Completed[]): string {
  const names = commands.map(({ name }) => name).join(' ');
  const values = commands.flatMap((command) =>
    command.options.flatMap(({ name, takes }) =>
      takes === null || takes.length === 0 ? [] : [[`'${command.name} --${name}'`, takes.join(' ')] as const],
    ),
  );
  const free = commands.flatMap((command) =>
    command.options.filter(isFree).map(({ name }) => `'${command.name} --${name}'`),
  );
  return `# Completes kitproof in bash: source <(kitproof completion bash)
_kitproof() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]}
  local command=\${COMP_WORDS[1]} option= words=
  COMPREPLY=()
  # Bash parts --name=value at the sign.
  if [[ $word == = ]]; then option=$before; word=
  elif [[ $before == = ]]; then option=\${COMP_WORDS[COMP_CWORD-2]}
  elif [[ $before == --* ]]; then option=$before
  fi
  if [[ $COMP_CWORD == 1 ]]; then
    words='${names} help --help --version'
  elif [[ $COMP_CWORD == 2 && $command == help ]]; then
    words='${names}'
  else
    case "$command $option" in
${values.map(([pattern, words]) => `      ${pattern}) words='${words}' ;;`).join('\n')}
${free.length === 0 ? '' : `      ${free.join('|')}) return ;;\n`}      *)
        case "$command" in
${commands.map(caseOf).join('\n')}
        esac ;;
    esac
  fi
  COMPREPLY=($(compgen -W "$words" -- "$word"))
}
complete -o bashdefault -o default -F _kitproof kitproof
`;
}

function caseOf({ name, options, parts }: Completed): string {
  if (parts.length === 0) return `          ${name}) [[ $word == -* ]] && words='${flags(options)}' ;;`;
  const first = `[[ $COMP_CWORD == 2 ]] && words='${parts.map((part) => part.name).join(' ')}'`;
  const own = parts.map((part) => `              ${part.name}) words='${flags(part.options)}' ;;`);
  return `          ${name})
            if [[ $word == -* ]]; then
              case "\${COMP_WORDS[2]}" in
${own.join('\n').replaceAll(/^/gm, '  ')}
                *) words='${flags(options)}' ;;
              esac
            else ${first}
            fi ;;`;
}

const flags = (options: readonly CompletedOption[]): string =>
  [...options.map(({ name }) => `--${name}`), '--help'].join(' ');
