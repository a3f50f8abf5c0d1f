import * as vscode from 'vscode';
import { LabourStatus } from './labour-status';
import { LanguageServer } from './language-server';
import { Preview } from './preview/preview';

/** Started by the editor on a document of ours, or in a folder that holds one. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = new LanguageServer(context);
  const preview = new Preview(context.extensionUri, server);
  const command = (name: string, work: () => unknown) =>
    context.subscriptions.push(vscode.commands.registerCommand(`kitproof.${name}`, work));
  command('showGuide', () => preview.show());
  command('checkWorkspace', () => checkWorkspace(server));
  command('restartServer', () => server.restart());
  context.subscriptions.push(server, preview, new LabourStatus(server));
  await server.start();
}

/** Has every document checked afresh and shows what was found. */
async function checkWorkspace(server: LanguageServer): Promise<void> {
  await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: 'Kitproof: checking the workspace' },
    () => server.checkWorkspace(),
  );
  await vscode.commands.executeCommand('workbench.actions.view.problems');
}
