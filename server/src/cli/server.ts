import { version } from '../../../package.json';
import type { Command } from './command';
import { EXIT, UsageError } from './io';

export const serverCommand: Command = {
  name: 'server',
  summary: 'run the language server that editors talk to',
  // Editors built on one common client library add the number of their process; nothing here needs it.
  options: { stdio: { type: 'boolean' }, clientProcessId: { type: 'string' } },
  help: `kitproof server --stdio

The language server: findings while typing, hover, completion and the rest, for any
editor that speaks the Language Server Protocol. It reads and writes the protocol on
standard input and output and ends when the editor does; nothing goes over a network.

  --stdio                   talk over standard input and output (the only way there is)

Example, for an editor's settings
  kitproof server --stdio   for files named *.install.yaml, *.kit.yaml, *.vehicle.yaml,
                            *.rules.yaml, *.times.yaml and kitproof.yaml

Exit status
  0  the editor ended it
  2  the command line is wrong
`,
  async run(args, io) {
    if (!args.flag('stdio')) throw new UsageError('kitproof server takes --stdio.');
    if (args.positionals.length > 0) throw new UsageError('kitproof server takes no paths.');
    // Read only when it is wanted, so that other commands start without it.
    const { serveStdio } = await import('../lsp/stdio');
    await serveStdio({ files: io.files, version });
    return EXIT.clean;
  },
};
