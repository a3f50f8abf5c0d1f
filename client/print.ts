import * as vscode from 'vscode';
import { PRINT_REQUEST, type PrintAnswer, type PrintParams } from '../server/src/lsp/print-types';
import { bytesOf } from '../server/src/workspace/base64';
import type { LanguageServer } from './language-server';
import { openGuideUri } from './open-guide';
import type { Preview } from './preview/preview';

interface Form extends vscode.QuickPickItem, Pick<PrintParams, 'form' | 'sheet'> {
  readonly ending: string;
}

const FORMS: readonly Form[] = [
  { label: 'PDF', detail: 'The guide for the box, to be printed', form: 'pdf', sheet: false, ending: '.pdf' },
  {
    label: 'HTML page',
    detail: 'One file with its pictures in it',
    form: 'html',
    sheet: false,
    ending: '.html',
  },
  {
    label: 'Markdown',
    detail: 'For a repository or a page of your own',
    form: 'markdown',
    sheet: false,
    ending: '.md',
  },
  {
    label: 'Torque sheet as PDF',
    detail: 'For the workshop to tick and sign',
    form: 'pdf',
    sheet: true,
    ending: '-torques.pdf',
  },
  {
    label: 'Torque sheet as HTML page',
    detail: 'For the workshop to tick and sign',
    form: 'html',
    sheet: true,
    ending: '-torques.html',
  },
];

/** Asks in what form and where, and writes the guide that is open, for all variants or for the one that the preview shows. */
export async function printGuide(server: LanguageServer, preview: Preview): Promise<void> {
  const uri = openGuideUri();
  if (uri === null) {
    void vscode.window.showWarningMessage('Kitproof: open a guide first; that is what is printed.');
    return;
  }
  const form = await vscode.window.showQuickPick(FORMS, {
    title: 'Print the guide',
    placeHolder: 'As what?',
  });
  if (form === undefined) return;
  const variant = await variantFor(preview.chosenOf(uri.toString()));
  if (variant === undefined) return;
  const target = await vscode.window.showSaveDialog({
    defaultUri: uri.with({ path: uri.path.replace(/(\.install)?\.ya?ml$/, '') + form.ending }),
    filters: { [form.label]: [form.ending.slice(form.ending.lastIndexOf('.') + 1)] },
  });
  if (target === undefined) return;
  const paper = vscode.workspace.getConfiguration('kitproof').get('paper') === 'letter' ? 'letter' : 'a4';
  const wanted: PrintParams = { uri: uri.toString(), variant, form: form.form, sheet: form.sheet, paper };
  const answer = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title: 'Kitproof: printing the guide' },
    (_, token) => server.ask<PrintAnswer>(PRINT_REQUEST, wanted, token),
  );
  if (answer === null || 'problem' in answer) {
    void vscode.window.showErrorMessage(
      `Kitproof: ${answer?.problem ?? 'it does not run, so nothing was printed.'}`,
    );
    return;
  }
  const bytes = 'text' in answer ? new TextEncoder().encode(answer.text) : bytesOf(answer.base64);
  const name = target.path.slice(target.path.lastIndexOf('/') + 1);
  try {
    await vscode.workspace.fs.writeFile(target, bytes);
  } catch {
    void vscode.window.showErrorMessage(`Kitproof: ${name} could not be written. Can files be made there?`);
    return;
  }
  const open = 'Open';
  const pressed = await vscode.window.showInformationMessage(`Kitproof: wrote ${name}.`, open);
  if (pressed !== open) return;
  if (form.form === 'markdown') await vscode.window.showTextDocument(target);
  else await vscode.env.openExternal(target);
}

/** All variants, or the one that is shown beside the text; undefined where nobody chose. */
async function variantFor(
  chosen: Readonly<Record<string, string>>,
): Promise<Readonly<Record<string, string>> | undefined> {
  const pairs = Object.entries(chosen);
  if (pairs.length === 0) return {};
  const shown = pairs.map(([name, value]) => `${name}: ${value}`).join(', ');
  const items = [
    { label: 'All variants', detail: 'Steps for some of them alone are marked', variant: {} },
    { label: 'The variant shown', detail: shown, variant: Object.fromEntries(pairs) },
  ];
  return (
    await vscode.window.showQuickPick(items, { title: 'Print the guide', placeHolder: 'For which vehicles?' })
  )?.variant;
}
