import * as vscode from 'vscode';
import { type NewKind, skeletonOf } from './skeletons';

const ASKED: Readonly<Record<NewKind, { readonly prompt: string; readonly example: string }>> = {
  install: { prompt: 'What does the guide fit?', example: 'Trail rear shocks' },
  vehicle: { prompt: 'What is the vehicle called?', example: 'Moorhen' },
  kit: { prompt: 'What is the kit called?', example: 'Trail shocks' },
  rules: { prompt: 'What is the rule pack about?', example: 'House rules' },
};

/** Asks for a name, writes a document of a kind with it beside what is open, and opens it. */
export async function newDocument(kind: NewKind): Promise<void> {
  const folder = homeOf();
  if (folder === null) {
    void vscode.window.showWarningMessage(
      'Kitproof: open a folder first, so that the new document has a place.',
    );
    return;
  }
  const { prompt, example } = ASKED[kind];
  const title = (await vscode.window.showInputBox({ prompt, placeHolder: example }))?.trim();
  if (title === undefined || title === '') return;
  const beside = await besideIn(folder);
  const { fileName, text, cursor } = skeletonOf(kind, title, beside);
  const uri = vscode.Uri.joinPath(folder, fileName);
  if (await exists(uri)) {
    void vscode.window.showWarningMessage(`Kitproof: there is a ${fileName} already. Nothing was written.`);
  } else {
    try {
      await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
    } catch {
      void vscode.window.showWarningMessage(
        `Kitproof: ${fileName} could not be written. Can files be made in this folder?`,
      );
      return;
    }
  }
  const editor = await vscode.window.showTextDocument(uri);
  const place = editor.document.positionAt(cursor);
  editor.selection = new vscode.Selection(place, place);
}

/** The folder of the active document, else the first that is open. */
function homeOf(): vscode.Uri | null {
  const active = vscode.window.activeTextEditor?.document.uri;
  if (active !== undefined && active.scheme !== 'untitled' && vscode.workspace.getWorkspaceFolder(active))
    return vscode.Uri.joinPath(active, '..');
  return vscode.workspace.workspaceFolders?.[0]?.uri ?? null;
}

/** The names of the vehicle and kit files of a folder, so that a guide can name what there is one of. */
async function besideIn(folder: vscode.Uri): Promise<{ vehicle: string | null; kit: string | null }> {
  const names = (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name);
  const only = (ending: RegExp) => {
    const found = names.filter((name) => ending.test(name));
    return found.length === 1 ? found[0]! : null;
  };
  return { vehicle: only(/\.vehicle\.ya?ml$/), kit: only(/\.kit\.ya?ml$/) };
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
