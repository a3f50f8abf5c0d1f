/** What makes one text into another: whole lines, and of one line that became another only what differs. */

import { nextLine } from './source';

export interface Change {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Pairs of lines compared before the middle of two texts is taken as one change. */
const MOST_COMPARED = 4_000_000;

/** The changes that lead from one text to another, in order; places are those of the first. */
export function differences(before: string, after: string): Change[] {
  return lineChanges(before, after).map((change) => trimmed(before, change));
}

/** A change of one line into another, without what they begin and end with alike. */
function trimmed(before: string, change: Change): Change {
  const old = before.slice(change.start, change.end);
  const fresh = change.text;
  if (linesOf(old).length !== 1 || linesOf(fresh).length !== 1) return change;
  const most = Math.min(old.length, fresh.length);
  let head = 0;
  while (head < most && old[head] === fresh[head]) head++;
  let tail = 0;
  while (tail < most - head && old[old.length - 1 - tail] === fresh[fresh.length - 1 - tail]) tail++;
  // A character of two units is not parted.
  if (head > 0 && isLead(old.charCodeAt(head - 1))) head--;
  if (tail > 0 && isTrail(old.charCodeAt(old.length - tail))) tail--;
  return {
    start: change.start + head,
    end: change.end - tail,
    text: fresh.slice(head, fresh.length - tail),
  };
}

const isLead = (unit: number): boolean => unit >= 0xd800 && unit < 0xdc00;
const isTrail = (unit: number): boolean => unit >= 0xdc00 && unit < 0xe000;

function lineChanges(before: string, after: string): Change[] {
  const old = linesOf(before);
  const fresh = linesOf(after);
  let head = 0;
  while (head < old.length && head < fresh.length && old[head] === fresh[head]) head++;
  let tail = 0;
  while (
    tail < old.length - head &&
    tail < fresh.length - head &&
    old[old.length - 1 - tail] === fresh[fresh.length - 1 - tail]
  )
    tail++;
  const a = old.slice(head, old.length - tail);
  const b = fresh.slice(head, fresh.length - tail);
  const start = old.slice(0, head).reduce((sum, line) => sum + line.length, 0);
  if (a.length === 0 && b.length === 0) return [];
  const whole = { start, end: start + a.join('').length, text: b.join('') };
  return a.length * b.length > MOST_COMPARED ? [whole] : aligned(a, b, start);
}

/** By the longest common run of lines. */
function aligned(a: readonly string[], b: readonly string[], start: number): Change[] {
  const width = b.length + 1;
  const longest = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      longest[i * width + j] =
        a[i] === b[j]
          ? longest[(i + 1) * width + j + 1]! + 1
          : Math.max(longest[(i + 1) * width + j]!, longest[i * width + j + 1]!);
  const changes: Change[] = [];
  let at = start;
  let from = start;
  let text = '';
  const close = (): void => {
    if (at > from || text !== '') changes.push({ start: from, end: at, text });
    text = '';
  };
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      close();
      at += a[i]!.length;
      from = at;
      i++;
      j++;
    } else if (
      j >= b.length ||
      (i < a.length && longest[(i + 1) * width + j]! >= longest[i * width + j + 1]!)
    ) {
      at += a[i++]!.length;
    } else text += b[j++];
  }
  close();
  return changes;
}

/** Lines with their breaks. */
function linesOf(text: string): string[] {
  const lines: string[] = [];
  for (let at = 0; at < text.length; ) {
    const next = nextLine(text, at);
    lines.push(text.slice(at, next));
    at = next;
  }
  return lines;
}
