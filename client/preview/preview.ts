import * as vscode from 'vscode';
import {
  GUIDE_REQUEST,
  type GuideView,
  LEDGER_REQUEST,
  type LedgerView,
} from '../../server/src/lsp/guide-view-types';
import { looksLikeGuide } from '../first-key';
import { LANGUAGE } from '../language';
import type { LanguageServer } from '../language-server';
import { Settling } from '../settling';
import type { FromPage, ToPage } from './messages';
import { shellOf } from './shell';

const NO_GUIDE = 'Open an install guide to read it here.';
const NOT_A_GUIDE = 'This document is no install guide. Open one to read it here.';

export const isGuide = (document: vscode.TextDocument): boolean =>
  document.languageId === LANGUAGE &&
  looksLikeGuide(document.fileName, document.getText(new vscode.Range(0, 0, 40, 0)));

/** The guide as it is read, beside its text. There is one; it follows the editor that was used last. */
export class Preview implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private ready = false;
  private document: vscode.TextDocument | undefined;
  private shown: GuideView | null = null;
  private ledger: LedgerView | null = null;
  private sent = '';
  /** What the reader chose to read of, by guide. */
  private readonly chosen = new Map<string, Readonly<Record<string, string>>>();
  private readonly settling = new Settling(60, (token) => this.refresh(token));
  private readonly disposables: vscode.Disposable[];

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly server: LanguageServer,
  ) {
    this.disposables = [
      this.settling,
      server.onDidChange(() => this.panel && this.settling.ask()),
      vscode.window.onDidChangeActiveTextEditor((editor) => {
        if (this.panel !== undefined && editor?.document.languageId === LANGUAGE)
          this.follow(editor.document);
      }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor.document === this.document) this.tellHere(textEditor);
      }),
    ];
  }

  /** Shows the guide of the active editor, or of the first that is visible. */
  show(): void {
    const editor = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors].find(
      (one) => one !== undefined && isGuide(one.document),
    );
    if (this.panel === undefined) this.open();
    else this.panel.reveal(undefined, true);
    if (editor !== undefined) this.follow(editor.document);
    else if (this.document === undefined) this.send({ type: 'empty', text: NO_GUIDE });
  }

  /** What the reader of a guide chose to read of; nothing where that is all of it. */
  chosenOf(uri: string): Readonly<Record<string, string>> {
    return this.chosen.get(uri) ?? {};
  }

  private open(): void {
    const images = vscode.Uri.joinPath(this.extensionUri, 'client', 'images');
    const dist = vscode.Uri.joinPath(this.extensionUri, 'dist');
    const panel = vscode.window.createWebviewPanel(
      'kitproof.guide',
      'Guide',
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [dist], retainContextWhenHidden: false },
    );
    panel.iconPath = {
      light: vscode.Uri.joinPath(images, 'document-light.svg'),
      dark: vscode.Uri.joinPath(images, 'document-dark.svg'),
    };
    const { webview } = panel;
    this.panel = panel;
    this.ready = false;
    webview.onDidReceiveMessage((message: FromPage) => this.receive(message));
    panel.onDidDispose(() => {
      this.panel = undefined;
      this.ready = false;
      this.document = undefined;
      this.shown = null;
      this.ledger = null;
    });
    webview.html = shellOf({
      cspSource: webview.cspSource,
      script: webview.asWebviewUri(vscode.Uri.joinPath(dist, 'preview.js')).toString(),
      style: webview.asWebviewUri(vscode.Uri.joinPath(dist, 'preview-style.css')).toString(),
      nonce: nonce(),
    });
  }

  private follow(document: vscode.TextDocument): void {
    this.document = document;
    this.settling.ask();
  }

  private async refresh(token: vscode.CancellationToken): Promise<void> {
    const { document } = this;
    if (this.panel === undefined || document === undefined) return;
    const uri = document.uri.toString();
    const asked = { uri, variant: this.chosen.get(uri) ?? {} };
    const guide = await this.server.ask<GuideView>(GUIDE_REQUEST, asked, token);
    if (token.isCancellationRequested || document !== this.document) return;
    if (guide === null) {
      // A server that starts again, or a text in between, leaves what was read; it would flicker otherwise.
      if (this.shown?.uri === uri && (!this.server.isRunning || !document.isClosed)) return;
      this.shown = null;
      this.send({ type: 'empty', text: NOT_A_GUIDE });
      return;
    }
    this.shown = guide;
    if (this.panel !== undefined) this.panel.title = guide.title === '' ? 'Guide' : `Guide: ${guide.title}`;
    this.send({ type: 'guide', guide });
    const editor = vscode.window.visibleTextEditors.find((one) => one.document === document);
    if (editor !== undefined) this.tellHere(editor);
    const ledger = await this.server.ask<LedgerView>(LEDGER_REQUEST, asked, token);
    if (ledger === null || token.isCancellationRequested || document !== this.document) return;
    this.ledger = ledger;
    this.send({ type: 'ledger', ledger });
  }

  private choose(name: string, value: string | null): void {
    const uri = this.shown?.uri;
    if (uri === undefined) return;
    const { [name]: _, ...others } = this.chosen.get(uri) ?? {};
    this.chosen.set(uri, value === null ? others : { ...others, [name]: value });
    this.settling.ask();
  }

  /** Tells the page which step the cursor stands in: the last that begins before it. */
  private tellHere(editor: vscode.TextEditor): void {
    const { line } = editor.selection.active;
    const uri = this.shown?.uri;
    let path: string | null = null;
    for (const section of this.shown?.sections ?? []) {
      if (section.range.start.line <= line) path = null;
      for (const step of section.steps)
        if (step.uri === uri && step.range.start.line <= line) path = step.path;
    }
    this.send({ type: 'here', path });
  }

  private receive(message: FromPage): void {
    if (message.type === 'ready') {
      // The page is new, at first or after it was hidden: it is told all it should show.
      this.ready = true;
      this.sent = '';
      if (this.shown !== null) this.send({ type: 'guide', guide: this.shown });
      if (this.ledger !== null && this.ledger.uri === this.shown?.uri)
        this.send({ type: 'ledger', ledger: this.ledger });
      else if (this.document === undefined) this.send({ type: 'empty', text: NO_GUIDE });
      this.settling.ask();
      return;
    }
    if (message.type === 'open') void this.reveal(message.uri, message.line, message.character);
    else if (message.type === 'choose') this.choose(message.name, message.value);
  }

  /** Shows a place in the text, of documents that the preview shows only. */
  private async reveal(uri: string, line: number, character: number): Promise<void> {
    const { shown } = this;
    const known =
      shown?.sections.some(({ steps }) => steps.some((step) => step.uri === uri)) || shown?.uri === uri;
    if (!known) return;
    const place = new vscode.Position(line, character);
    const target = vscode.Uri.parse(uri, true);
    const visible = vscode.window.visibleTextEditors.find(
      (one) => one.document.uri.toString() === target.toString(),
    );
    await vscode.window.showTextDocument(target, {
      viewColumn: visible?.viewColumn ?? vscode.ViewColumn.One,
      selection: new vscode.Range(place, place),
    });
  }

  private send(message: ToPage): void {
    if (this.panel === undefined || !this.ready) return;
    if (message.type === 'guide') {
      const text = JSON.stringify(message.guide);
      if (text === this.sent) return;
      this.sent = text;
    } else if (message.type === 'empty') this.sent = '';
    void this.panel.webview.postMessage(message);
  }

  dispose(): void {
    this.panel?.dispose();
    for (const one of this.disposables) one.dispose();
  }
}

/** What nobody can guess, in letters and figures. */
function nonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(24));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
