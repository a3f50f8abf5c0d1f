import * as vscode from 'vscode';
import { LABOUR_REQUEST, type LabourView } from '../server/src/lsp/guide-view-types';
import { LANGUAGE } from './language';
import type { LanguageServer } from './language-server';
import { Settling } from './settling';
import { hoursInWords, labourInSentences } from './words';

/** The total labour of the guide in the active editor, in the status bar. */
export class LabourStatus implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    'kitproof.labour',
    vscode.StatusBarAlignment.Right,
    90,
  );
  private readonly settling = new Settling(150, (token) => this.refresh(token));
  private readonly disposables: vscode.Disposable[];

  constructor(private readonly server: LanguageServer) {
    this.item.name = 'Kitproof: labour of the guide';
    this.item.command = 'kitproof.showGuide';
    this.disposables = [
      this.item,
      this.settling,
      server.onDidChange(() => this.settling.ask()),
      vscode.window.onDidChangeActiveTextEditor(() => this.settling.ask()),
    ];
    this.settling.ask();
  }

  private async refresh(token: vscode.CancellationToken): Promise<void> {
    const editor = vscode.window.activeTextEditor;
    // The preview has the focus: what was said of the guide beside it still holds.
    if (editor === undefined && vscode.window.visibleTextEditors.length > 0) return;
    if (editor?.document.languageId !== LANGUAGE) {
      this.item.hide();
      return;
    }
    const uri = editor.document.uri.toString();
    const labour = await this.server.ask<LabourView>(LABOUR_REQUEST, { uri }, token);
    if (token.isCancellationRequested) return;
    if (labour === null) {
      this.item.hide();
      return;
    }
    const words = hoursInWords(labour);
    this.item.text = `$(watch) ${words}`;
    const tooltip = new vscode.MarkdownString();
    // The words come from a document: they are text and never run as markup.
    for (const line of labourInSentences(labour)) tooltip.appendText(`${line}\n\n`);
    this.item.tooltip = tooltip;
    this.item.accessibilityInformation = { label: `Labour of the guide: ${words}` };
    this.item.show();
  }

  dispose(): void {
    for (const one of this.disposables) one.dispose();
  }
}
