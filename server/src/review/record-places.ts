import type { Cube } from '../findings/finding';
import { listed, termInWords } from '../findings/words';
import { stepNumbers } from '../guide/order';
import type { Model } from '../model/model';

/** The printed number of the step that a path of an operation or step belongs to; null where it belongs to none. */
export class StepOf {
  private readonly numbers: ReadonlyMap<string, string>;

  constructor(model: Model) {
    this.numbers = stepNumbers(model);
  }

  number(path: string | undefined): string | null {
    if (path === undefined) return null;
    const step = this.numbers.get(path);
    if (step !== undefined) return step;
    const dot = path.lastIndexOf('.');
    return dot < 0 ? null : (this.numbers.get(path.slice(0, dot)) ?? null);
  }
}

/** Numbers of steps, each once, in the order of the guide. */
export const inOrder = (numbers: Iterable<string>): string[] =>
  [...new Set(numbers)].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));

/** `step 3.4`, `steps 3.4 and 5.1`; many are cut short. */
export function stepsNamed(numbers: Iterable<string>): string {
  const all = inOrder(numbers);
  if (all.length === 0) return '';
  const shown = all.length > 6 ? [...all.slice(0, 5), `${all.length - 5} more`] : all;
  return `${all.length === 1 ? 'step' : 'steps'} ${listed(shown)}`;
}

/** `lockers: fitted; or wheelbase: long`; null for all. */
export function cubesInWords(cubes: readonly Cube[]): string | null {
  if (cubes.length === 0) return null;
  return cubes
    .map((cube) => listed(Object.entries(cube).map(([name, values]) => termInWords(name, values))))
    .join('; or ');
}

/** A text cut after a word, so that it takes one line or two. */
export function shortOf(text: string, most = 110): string {
  const plain = text.replaceAll(/\s+/g, ' ').trim();
  if (plain.length <= most) return plain;
  const cut = plain.slice(0, most);
  return `${cut.slice(0, Math.max(cut.lastIndexOf(' '), most - 20)).replace(/[,;:. ]+$/, '')} …`;
}
