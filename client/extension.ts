import * as vscode from 'vscode';
import { claimYaml } from './claim';
import { compareWithCommit } from './compare';
import { DownStatus } from './down-status';
import { GuideTree } from './guide-tree';
import { LabourStatus } from './labour-status';
import { type ClientMaker, LanguageServer } from './language-server';
import { newDocument } from './new-document';
import { Preview } from './preview/preview';
import { printGuide } from './print';
import { waiveCommand } from './waive';
import { checkedInWords } from './words';

/** Everything of the extension that is the same on a machine and in a browser. */
export async function begin(context: vscode.ExtensionContext, makeClient: ClientMaker): Promise<void> {
  const server = new LanguageServer(context, makeClient);
  const preview = new Preview(context.extensionUri, server);
  const command = (name: string, work: (argument: string) => unknown) =>
    context.subscriptions.push(vscode.commands.registerCommand(`kitproof.${name}`, work));
  command('showGuide', () => preview.show());
  command('openGuide', async (uri: string) => {
    await vscode.window.showTextDocument(vscode.Uri.parse(uri, true));
    preview.show();
  });
  command('newGuide', () => newDocument('install'));
  command('newVehicle', () => newDocument('vehicle'));
  command('newKit', () => newDocument('kit'));
  command('newRulePack', () => newDocument('rules'));
  command('printGuide', () => printGuide(server, preview));
  command('compareWithCommit', () => compareWithCommit(server));
  command('checkWorkspace', () => checkWorkspace(server));
  command('restartServer', () => server.restart());
  context.subscriptions.push(...claimYaml(), waiveCommand(server, context.globalState));
  context.subscriptions.push(
    server,
    preview,
    new LabourStatus(server),
    new DownStatus(server),
    new GuideTree(server),
  );
  await server.start();
}

/** Has every document checked afresh, says how much was found and shows it. */
async function checkWorkspace(server: LanguageServer): Promise<void> {
  const checked = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: 'Kitproof: checking the workspace' },
    () => server.checkWorkspace(),
  );
  if (checked === null) {
    void vscode.window.showWarningMessage('Kitproof does not run, so nothing was checked.');
    return;
  }
  const whole = vscode.workspace.getConfiguration('kitproof').get('checkWorkspace') !== false;
  const scope = whole ? '' : ' that are open, since kitproof.checkWorkspace is off';
  vscode.window.setStatusBarMessage(`Kitproof: ${checkedInWords(checked)}${scope}`, 8000);
  await vscode.commands.executeCommand('workbench.actions.view.problems');
}
