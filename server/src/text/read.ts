import { LocatedText } from './located';
import type { Reading } from './tree';

/**
 * Reading never throws, its spans are absolute UTF-16 offsets, one mistake is one problem and costs one step at most,
 * and a text read after any edits equals the same text read afresh.
 */
export function readText(text: string): Reading {
  return new LocatedText(text).reading();
}

export { LocatedText } from './located';
export type { Entry, Item, Node, Problem, Reading } from './tree';
