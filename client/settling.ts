import * as vscode from 'vscode';

/**
 * Runs work some time after the last time it was asked for, one at a time: what is asked for meanwhile cancels the one
 * that runs and comes after it.
 */
export class Settling implements vscode.Disposable {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private source: vscode.CancellationTokenSource | undefined;

  constructor(
    private readonly delay: number,
    private readonly work: (token: vscode.CancellationToken) => Promise<void>,
  ) {}

  ask(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.run(), this.delay);
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.source?.cancel();
  }

  private async run(): Promise<void> {
    this.source?.cancel();
    const source = new vscode.CancellationTokenSource();
    this.source = source;
    try {
      await this.work(source.token);
    } finally {
      source.dispose();
    }
  }
}
