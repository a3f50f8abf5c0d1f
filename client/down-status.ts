import * as vscode from 'vscode';
import type { LanguageServer } from './language-server';

/** Says in the status bar that nothing is checked any more: without a server no finding is no news. */
export class DownStatus implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    'kitproof.down',
    vscode.StatusBarAlignment.Right,
    91,
  );
  private readonly listening: vscode.Disposable;

  constructor(server: LanguageServer) {
    this.item.name = 'Kitproof: stopped';
    this.item.text = '$(warning) Kitproof stopped';
    this.item.tooltip = 'Nothing is checked. A click starts Kitproof again.';
    this.item.backgroundColor = new vscode.ThemeColor('statusBarItem.warningBackground');
    this.item.command = 'kitproof.restartServer';
    this.item.accessibilityInformation = { label: 'Kitproof stopped: nothing is checked', role: 'button' };
    this.listening = server.onDidChange(() => {
      if (server.isDown) this.item.show();
      else this.item.hide();
    });
  }

  dispose(): void {
    this.item.dispose();
    this.listening.dispose();
  }
}
