import * as vscode from 'vscode';
import { isGuide } from './preview/preview';

/** The guide of the active editor, else of the first that is visible; null where none is. */
export function openGuideUri(): vscode.Uri | null {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  const documents = [activeTextEditor, ...visibleTextEditors].flatMap((one) => one?.document ?? []);
  return documents.find(isGuide)?.uri ?? null;
}
