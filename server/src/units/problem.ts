import type { QuantityProblem, QuantityProblemCode } from './quantity';

/** Thrown and caught within this station only: reading stops at the first thing that is wrong. */
export class Problem extends Error {
  constructor(readonly problem: QuantityProblem) {
    super(problem.message);
  }
}

/** Ends the reading with a problem at a place in the text. */
export const fail = (
  code: QuantityProblemCode,
  message: string,
  start: number,
  end: number,
  suggestion?: string,
  certain = false,
): never => {
  const more = suggestion === undefined ? {} : { suggestion, certain };
  throw new Problem({ code, message, start, end, ...more });
};

/** A written text as a sentence quotes it. */
export const shown = (text: string): string => (text.length > 30 ? `${text.slice(0, 30)}…` : text);
