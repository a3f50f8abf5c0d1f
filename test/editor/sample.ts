import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const samples = join(import.meta.dirname, '../../samples');

/** The pictures that the large sample shows. */
export const PICTURES = ['figures/front-bar-bracket.svg', 'figures/front-coil-seat.svg'];

/** A sample without the marks beneath its lines, which say to the tests what should be found. */
export function plain(name: string): string {
  const lines = readFileSync(join(samples, name), 'utf8').split('\n');
  return lines.filter((line) => !/^#\s*\^/.test(line)).join('\n');
}

/** Where a word stands in a sample as it is opened: the line and the column of its beginning, from 1. */
export function placeOf(text: string, word: string): { readonly line: number; readonly column: number } {
  const lines = text.split('\n');
  const line = lines.findIndex((one) => one.includes(word));
  if (line < 0) throw new Error(`"${word}" does not stand there`);
  return { line: line + 1, column: lines[line]!.indexOf(word) + 1 };
}
