/** A word of a running text, in lower case, and where it stands (UTF-16 units, end excluded). */
export interface PlainWord {
  readonly word: string;
  readonly start: number;
  readonly end: number;
  /** A sentence or clause ends behind it. */
  readonly ends: boolean;
}

/** The words of a text in order; what is printed from the model (`{part:…}`) is none. One pass. */
export function plainWords(text: string): PlainWord[] {
  const words: PlainWord[] = [];
  let depth = 0;
  let start = -1;
  const close = (end: number, ends: boolean): void => {
    if (start >= 0) words.push({ word: text.slice(start, end).toLowerCase(), start, end, ends });
    else if (ends && words.length > 0) words[words.length - 1] = { ...words.at(-1)!, ends: true };
    start = -1;
  };
  for (let at = 0; at < text.length; at++) {
    const one = text[at]!;
    if (one === '{') {
      close(at, true);
      depth = 1;
    } else if (one === '}') depth = 0;
    else if (depth === 0 && /[\p{L}\p{N}]/u.test(one)) {
      if (start < 0) start = at;
    } else if (depth === 0) close(at, '.,;:!?()'.includes(one));
  }
  close(text.length, true);
  return words;
}
