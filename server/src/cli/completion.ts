import type { Command } from './command';
import { bashScript } from './completion/bash';
import { fishScript } from './completion/fish';
import { completed } from './completion/table';
import { zshScript } from './completion/zsh';
import { EXIT, UsageError } from './io';
import { listed } from './words';

const SHELLS = { bash: bashScript, zsh: zshScript, fish: fishScript } as const;

/** @param commands all there are, this one among them. */
export const completionCommand = (commands: () => readonly Command[]): Command => ({
  name: 'completion',
  summary: 'print what makes a shell complete commands, options and their words',
  options: {},
  parts: Object.keys(SHELLS).map((name) => ({ name, summary: `for ${name}` })),
  help: `kitproof completion bash|zsh|fish

Prints a script with which a shell completes commands, options and the words that these
take. It holds all it needs: while you type, nothing is started.

Examples
  echo 'source <(kitproof completion bash)' >> ~/.bashrc
  echo 'source <(kitproof completion zsh)' >> ~/.zshrc      (behind compinit)
  kitproof completion fish > ~/.config/fish/completions/kitproof.fish

Exit status
  0  printed
  2  the command line is wrong
`,
  async run({ positionals }, io) {
    const [shell, ...more] = positionals;
    if (shell === undefined || more.length > 0 || !Object.hasOwn(SHELLS, shell)) {
      const said = shell === undefined ? '' : `; "${positionals.join(' ')}" is none`;
      throw new UsageError(`kitproof completion goes on with ${listed(Object.keys(SHELLS), 'or')}${said}.`);
    }
    io.out(SHELLS[shell as keyof typeof SHELLS](commands().map(completed)));
    return EXIT.clean;
  },
});
