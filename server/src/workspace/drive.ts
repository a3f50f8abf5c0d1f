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
    await othersTurn();
    if (wanted?.cancelled === true) {
      work.return(undefined as Result);
      return null;
    }
    turn = performance.now();
  }
}

/** What came in meanwhile is read in the first round of the event loop and heard in the second. A timer would wait a millisecond or four. */
async function othersTurn(): Promise<void> {
  for (let round = 0; round < 2; round++)
    await new Promise<void>((resolve) => {
      soon(resolve);
    });
}

/** Browsers have no immediates. */
const soon = (go: () => void) => (typeof setImmediate === 'function' ? setImmediate(go) : setTimeout(go, 0));
