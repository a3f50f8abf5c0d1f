import * as vscode from 'vscode';
import { COMPARE_REQUEST, type CompareAnswer, type CompareParams } from '../server/src/lsp/compare-types';
import type { LanguageServer } from './language-server';
import { openGuideUri } from './open-guide';

/** Shows what changed in the guide that is open since the last commit, in a tab of its own. */
export async function compareWithCommit(server: LanguageServer): Promise<void> {
  const uri = openGuideUri();
  if (uri === null) {
    void vscode.window.showWarningMessage('Kitproof: open a guide first; that is what is compared.');
    return;
  }
  if (!vscode.workspace.isTrusted) {
    // What a repository's own settings have git do is not known.
    const manage = 'Manage trust';
    const pressed = await vscode.window.showWarningMessage(
      'Kitproof: git is not run in a folder that you do not trust, so there is nothing to compare with.',
      manage,
    );
    if (pressed === manage) await vscode.commands.executeCommand('workbench.trust.manage');
    return;
  }
  const wanted: CompareParams = { uri: uri.toString(), revision: 'HEAD' };
  const answer = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: 'Kitproof: comparing with the last commit' },
    (_, token) => server.ask<CompareAnswer>(COMPARE_REQUEST, wanted, token),
  );
  if (answer === null || 'problem' in answer) {
    void vscode.window.showErrorMessage(
      `Kitproof: ${answer?.problem ?? 'it does not run, so nothing was compared.'}`,
    );
    return;
  }
  const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
  const panel = vscode.window.createWebviewPanel(
    'kitproof.comparison',
    `What changed: ${name}`,
    { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
    { enableScripts: false, localResourceRoots: [], enableFindWidget: true },
  );
  panel.webview.html = answer.page;
}
