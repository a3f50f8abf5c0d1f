import * as vscode from 'vscode';
import { saysItIsOurs } from './first-key';
import { LANGUAGE } from './language';

/**
 * Gives documents that are ours by their first key their language: the editor itself goes by the ending, and takes a
 * `.yaml` without one of our endings for YAML at large, or a line of comment before the key for no sign at all.
 */
export function claimYaml(): vscode.Disposable[] {
  const claim = (document: vscode.TextDocument): void => {
    if (document.languageId !== 'yaml') return;
    if (saysItIsOurs(document.getText(new vscode.Range(0, 0, 40, 0))))
      void vscode.languages.setTextDocumentLanguage(document, LANGUAGE);
  };
  for (const document of vscode.workspace.textDocuments) claim(document);
  return [vscode.workspace.onDidOpenTextDocument(claim)];
}
