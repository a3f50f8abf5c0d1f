import type { Cube } from './finding';

/** `1 error`, `2 errors`. */
export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

/** `a, b and c`. */
export function listed(words: readonly string[], last = 'and'): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

/** The variants of a finding in words, null where it holds for all: `only with lockers: fitted`. */
export function variantsInWords(variants: readonly Cube[]): string | null {
  if (variants.length === 0) return null;
  const cubes = variants.map((cube) =>
    listed(Object.entries(cube).map(([name, values]) => termInWords(name, values))),
  );
  return `only with ${cubes.join('; or with ')}`;
}

/** One trait, option, optional step or found branch with its values: `lockers: fitted`, `"wax" not done`, `"worn" found`. */
export function termInWords(name: string, values: readonly string[]): string {
  for (const branch of ['done', 'found']) {
    if (!name.startsWith(`${branch}:`) || values.length !== 1) continue;
    return `"${name.slice(branch.length + 1)}" ${values[0] === 'yes' ? '' : 'not '}${branch}`;
  }
  return `${name}: ${listed(values, 'or')}`;
}

/** What is said wherever a summary is printed: this tool certifies nothing. */
export const CAUTION =
  "Kitproof checks what is written. It certifies nothing: the vehicle maker's data, local rules and a qualified person come first.";
