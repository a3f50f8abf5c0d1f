import * as vscode from 'vscode';
import {
  type FindingView,
  GUIDE_REQUEST,
  type GuideView,
  OVERVIEW_REQUEST,
  type OverviewView,
} from '../server/src/lsp/guide-view-types';
import type { LanguageServer } from './language-server';
import { Settling } from './settling';
import { countsInWords, labourInLine } from './words';

type Entry =
  | { readonly type: 'guide'; readonly guide: OverviewView['guides'][number] }
  | {
      readonly type: 'line';
      readonly label: string;
      readonly icon: string;
      readonly command?: vscode.Command;
    }
  | { readonly type: 'finding'; readonly finding: FindingView };

const ICON = { error: 'error', warning: 'warning', info: 'info' } as const;

/** The guides of the workspace in the side bar: what was found in each, its hours, how much of it was checked. */
export class GuideTree implements vscode.TreeDataProvider<Entry>, vscode.Disposable {
  private readonly changed = new vscode.EventEmitter<undefined>();
  readonly onDidChangeTreeData = this.changed.event;
  private readonly settling = new Settling(400, async () => this.changed.fire(undefined));
  private readonly disposables: vscode.Disposable[];

  constructor(private readonly server: LanguageServer) {
    const view = vscode.window.createTreeView('kitproof.guides', {
      treeDataProvider: this,
      showCollapseAll: true,
    });
    this.disposables = [
      this.changed,
      this.settling,
      view,
      // Nobody looks: what changed is asked for when somebody does.
      server.onDidChange(() => view.visible && this.settling.ask()),
      view.onDidChangeVisibility(({ visible }) => visible && this.settling.ask()),
    ];
  }

  async getChildren(entry?: Entry): Promise<Entry[]> {
    const { token } = new vscode.CancellationTokenSource();
    if (entry === undefined) {
      const view = await this.server.ask<OverviewView>(OVERVIEW_REQUEST, {}, token);
      return (view?.guides ?? []).map((guide) => ({ type: 'guide', guide }));
    }
    if (entry.type !== 'guide') return [];
    const { uri } = entry.guide;
    const guide = await this.server.ask<GuideView>(GUIDE_REQUEST, { uri }, token);
    if (guide === null) return [];
    const command = { command: 'kitproof.openGuide', title: 'Read', arguments: [uri] };
    return [
      { type: 'line', label: labourInLine(guide.labour), icon: 'watch', command },
      {
        type: 'line',
        label: `${guide.checkedSteps} of ${guide.steps} steps checked`,
        icon: 'checklist',
        command,
      },
      ...[
        ...guide.elsewhere,
        ...guide.sections.flatMap(({ steps }) => steps.flatMap(({ findings }) => findings)),
      ].map((finding): Entry => ({ type: 'finding', finding })),
    ];
  }

  getTreeItem(entry: Entry): vscode.TreeItem {
    if (entry.type === 'guide') return guideItem(entry.guide);
    if (entry.type === 'line') {
      const item = new vscode.TreeItem(entry.label);
      item.iconPath = new vscode.ThemeIcon(entry.icon);
      item.command = entry.command;
      return item;
    }
    const { finding } = entry;
    const item = new vscode.TreeItem(finding.message);
    item.iconPath = new vscode.ThemeIcon(ICON[finding.severity]);
    item.description = [finding.rule, finding.variants ?? ''].filter((part) => part !== '').join(', ');
    item.tooltip = finding.message;
    const { start } = finding.range;
    const place = new vscode.Range(start.line, start.character, start.line, start.character);
    item.command = {
      command: 'vscode.open',
      title: 'Show',
      arguments: [vscode.Uri.parse(finding.uri, true), { selection: place }],
    };
    return item;
  }

  dispose(): void {
    for (const one of this.disposables) one.dispose();
  }
}

function guideItem({ uri, title, findings }: OverviewView['guides'][number]): vscode.TreeItem {
  const item = new vscode.TreeItem(title, vscode.TreeItemCollapsibleState.Collapsed);
  const resource = vscode.Uri.parse(uri, true);
  item.id = uri;
  item.description = countsInWords(findings);
  item.tooltip = `${title}\n${vscode.workspace.asRelativePath(resource)}\n${countsInWords(findings)}`;
  const worst =
    findings.error > 0 ? 'error' : findings.warning > 0 ? 'warning' : findings.info > 0 ? 'info' : 'pass';
  item.iconPath = new vscode.ThemeIcon(worst);
  item.command = { command: 'vscode.open', title: 'Open', arguments: [resource] };
  return item;
}
