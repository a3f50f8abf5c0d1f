/** More crashes than this within the window, and the server stays down until it is asked for. */
const MOST_CRASHES = 4;
const WINDOW = 5 * 60_000;

/** Whether a server that died is to be started again: a fault that comes back at once would otherwise never end. */
export class Restarts {
  private crashes: number[] = [];

  /**
   * Counts a crash.
   * @param now milliseconds of any clock that goes forward.
   * @returns whether to start the server again.
   */
  crashed(now: number): boolean {
    this.crashes = [...this.crashes.filter((then) => now - then < WINDOW), now];
    return this.crashes.length <= MOST_CRASHES;
  }

  /** Someone asked for the server: it gets all its tries again. */
  forget(): void {
    this.crashes = [];
  }
}
