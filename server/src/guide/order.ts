import type { BoundStep, Model } from '../model/model';

/** The steps as they run, each once, with the stretches that a `use` parts it into. */
export function stretchesOf({ steps }: Model): BoundStep[][] {
  const stretches = new Map<string, BoundStep[]>();
  for (const step of steps) {
    const known = stretches.get(step.path);
    if (known === undefined) stretches.set(step.path, [step]);
    else known.push(step);
  }
  return [...stretches.values()];
}

/**
 * The number that a step has in print, by its path: `2.3` as it is written, so that it stays the same whatever variant is
 * printed; the steps of a section that step 2.3 uses are 2.3.1, 2.3.2 and so on.
 */
export function stepNumbers({ steps }: Model): ReadonlyMap<string, string> {
  const numbers = new Map<string, string>();
  const within = new Map<string, number>();
  for (const { path } of steps) {
    if (numbers.has(path)) continue;
    const cut = path.lastIndexOf('/');
    if (cut < 0) {
      numbers.set(path, path);
      continue;
    }
    const user = path.slice(0, path.lastIndexOf('.', cut));
    const count = (within.get(user) ?? 0) + 1;
    within.set(user, count);
    numbers.set(path, `${numbers.get(user) ?? user}.${count}`);
  }
  return numbers;
}
