import * as vscode from 'vscode';
import {
  WAIVE_COMMAND,
  WAIVE_REQUEST,
  type WaiveParams,
  type WaiveTarget,
} from '../server/src/lsp/waive-types';
import { isComingDay, yearAfter } from './days';
import type { LanguageServer } from './language-server';

/** Who accepted something last, on this machine. */
const NAME = 'kitproof.waive.by';

/** The command behind "Waive … here": asks why, who and until when, and has the server write it where it belongs. */
export function waiveCommand(server: LanguageServer, memory: vscode.Memento): vscode.Disposable {
  return vscode.commands.registerCommand(WAIVE_COMMAND, async (target: WaiveTarget) => {
    const ask = askerFor(target);
    const because = await ask(1, 'Why is it accepted? One sentence, for whoever reads the guide next.', {
      placeHolder: 'Tightened at the next station.',
      validateInput: (said) => (said.trim() === '' ? 'Without a reason nothing is waived.' : null),
    });
    if (because === undefined) return;
    const by = await ask(2, 'Who accepts it?', {
      value: memory.get(NAME, ''),
      validateInput: (said) => (said.trim() === '' ? 'Without a name nothing is waived.' : null),
    });
    if (by === undefined) return;
    const today = new Date();
    const until = await ask(3, 'Until which day, that day included?', {
      value: yearAfter(today),
      validateInput: (said) =>
        isComingDay(said.trim(), today) ? null : 'A day that is still to come, year first: 2031-04-30.',
    });
    if (until === undefined) return;
    void memory.update(NAME, by.trim());
    const { message: _, ...place } = target;
    const parameters: WaiveParams = { ...place, because, by, until };
    if (await server.edit(WAIVE_REQUEST, parameters)) return;
    void vscode.window.showWarningMessage(
      `Kitproof: ${target.rule} was not waived. The text has changed meanwhile, or nothing can be added where it stands.`,
    );
  });
}

/** Asks one of the three questions; undefined where the writer gives up. */
function askerFor({ rule, message }: WaiveTarget) {
  return (step: number, question: string, options: vscode.InputBoxOptions) =>
    vscode.window.showInputBox({
      title: `Waive ${rule} (${step} of 3)`,
      prompt: step === 1 ? `${message} — ${question}` : question,
      ignoreFocusOut: true,
      ...options,
    });
}
