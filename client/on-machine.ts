import type * as vscode from 'vscode';
import { LanguageClient, type ServerOptions, TransportKind } from 'vscode-languageclient/node';
import { begin } from './extension';
import type { ClientMaker } from './language-server';

/** Started by an editor that has a machine, on a document of ours or in a folder that holds one. */
export const activate = (context: vscode.ExtensionContext): Promise<void> => begin(context, makeClient);

/** The server is a process of its own, from the program beside the extension. */
const makeClient: ClientMaker = (context, options) => {
  const module = context.asAbsolutePath('dist/cli.js');
  const run = { module, args: ['server'], transport: TransportKind.stdio };
  const server: ServerOptions = {
    run,
    debug: {
      ...run,
      options: { execArgv: ['--inspect=6069'], env: { ...process.env, KITPROOF_DEBUG: '1' } },
    },
  };
  return new LanguageClient('kitproof', 'Kitproof', server, options);
};
