import { drive } from '../workspace/drive';
import { checkGuideOf } from '../workspace/engine';
import { withTexts } from '../workspace/rebound';
import type { Context } from './context';

/** Steps that are gone through in all, whatever the guides: about a second of work. A short guide counts as one of a hundred. */
const MOST_STEPS = 5_000;
const FEWEST_STEPS = 100;
/** How often somebody is waited for, and how long each time, ms. */
const MOST_PAUSES = 30;
const PAUSE = 100;

/**
 * Checks a guide that was opened again and again while nobody wants anything, and throws the answers away: a program that
 * has just started is slow until its machine has compiled what it runs often, and that is better done before the writer types.
 */
export class Rehearsal {
  private left = MOST_STEPS;
  private running = false;

  /** @param isQuiet whether nothing came from the client for a while. */
  constructor(
    private readonly context: Context,
    private readonly isQuiet: () => boolean,
  ) {}

  /** Begins with a guide, or goes on. Stops as soon as anybody wants anything, and waits until that is over. */
  async begin(name: string): Promise<void> {
    const guide = this.context.checker.closureOf(name)?.document.kind === 'install';
    if (!guide || this.running || this.left <= 0) return;
    this.running = true;
    for (let pause = 0; pause < MOST_PAUSES && this.left > 0; pause++) {
      await new Promise<void>((resolve) => {
        setTimeout(resolve, PAUSE);
      });
      while (this.left > 0 && !this.isDisturbed && (await this.once(name)));
    }
    this.running = false;
  }

  private get isDisturbed(): boolean {
    return !this.context.checker.isIdle || !this.isQuiet();
  }

  /** Reads, binds and runs the guide as after an edit; false where it was not done to its end. */
  private async once(name: string): Promise<boolean> {
    const closure = this.context.checker.closureOf(name);
    const again = closure && withTexts(closure, new Map([[name, closure.document.text]]));
    if (again === null) return false;
    const disturbed = () => this.isDisturbed;
    const wanted = {
      get cancelled() {
        return disturbed();
      },
    };
    try {
      const check = await drive(checkGuideOf(again, this.context.today()), wanted);
      if (check === null) return false;
      this.left -= Math.max(check.coverage.steps, FEWEST_STEPS);
      return true;
    } catch {
      // A fault of ours was told with the real answer.
      this.left = 0;
      return false;
    }
  }
}
