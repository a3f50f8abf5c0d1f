import type { Io } from './io';
import { shorten } from './width';

/** Milliseconds before a run counts as long. */
const PATIENCE = 400;

/** A line on the terminal for long runs, renewed in place and gone at the end; nothing where there is no terminal. */
export class Progress {
  private readonly began = performance.now();
  private shownAt = 0;

  constructor(private readonly io: Io) {}

  show(doing: 'Reading' | 'Checking' | 'Trying', done: number, all: number, what: string): void {
    if (!this.io.errIsTerminal) return;
    const now = performance.now();
    if (now - this.began < PATIENCE || now - this.shownAt < 80) return;
    this.shownAt = now;
    const line = `${doing} ${done + 1} of ${all}  ${what}`;
    this.io.err(`\r\u001b[K${shorten(line, (this.io.columns ?? 80) - 1)}`);
  }

  end(): void {
    if (this.shownAt > 0) this.io.err('\r\u001b[K');
  }
}
