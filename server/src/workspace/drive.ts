/** Says whether work is still wanted. */
export interface Wanted {
  readonly cancelled: boolean;
}

/** Milliseconds that work may hold the thread before everything else gets its turn. */
const TURN = 12;

/**
 * Runs a generator to its end, letting the event loop breathe every few milliseconds.
 * @returns what the generator returns, or null where it was cancelled on the way.
 */
export async function drive<Result>(
  work: Generator<unknown, Result, void>,
  wanted?: Wanted,
): Promise<Result | null> {
  let turn = performance.now();
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    if (performance.now() - turn < TURN) continue;
    await new Promise<void>((resolve) => {
      setTimeout(resolve, 0);
    });
    if (wanted?.cancelled === true) {
      work.return(undefined as Result);
      return null;
    }
    turn = performance.now();
  }
}
