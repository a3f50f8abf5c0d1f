import { CST, Lexer, Parser } from 'yaml';

/** Bounds on what is read. Each keeps hostile text from hanging or felling the process; none is met in honest work. */

/** Characters in a document; above, nothing is read. */
export const MAX_CHARACTERS = 8_000_000;
/** Lines, commas and opening brackets in a document, which bound its values; above, nothing is read. */
export const MAX_MARKS = 500_000;
/** Collections within collections. Parsers recurse, and a deep enough text ends the process uncatchably. */
export const MAX_DEPTH = 100;
/** Pieces that are kept apart; a document of more is read as one, and read whole again after each edit. */
export const MAX_PIECES = 20_000;
/** Problems reported for one document; above, one more says how many were left out. */
export const MAX_PROBLEMS = 50;
/** Characters of one ill-formed piece that the tolerant producer is given; it is ten times slower than the fast one. */
export const MAX_TOLERANT_CHARACTERS = 400_000;
/** Values that a document may grow to when every alias is replaced by what it names. */
export const MAX_EXPANDED_VALUES = 1_000_000;
/** Stray characters in one ill-formed piece, after which the rest of it is not parsed. */
const MAX_STRAY_TOKENS = 50;

export interface Tokens {
  readonly tokens: readonly CST.Token[];
  /** Where nesting went too deep, else null. */
  readonly tooDeepAt: number | null;
}

/**
 * Parses text into `yaml`'s concrete tokens without recursion, and stops where nesting goes deeper than `MAX_DEPTH`,
 * so that nothing deeper ever reaches the composer, which recurses.
 */
export function boundedTokens(text: string): Tokens {
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let stray = 0;
  for (const lexeme of new Lexer().lex(text)) {
    for (const token of parser.next(lexeme)) {
      if (token.type === 'error') stray++;
      tokens.push(token);
    }
    if (stray > MAX_STRAY_TOKENS) break;
    if (parser.stack.length > MAX_DEPTH && collections(parser.stack) > MAX_DEPTH) {
      return { tokens: [], tooDeepAt: parser.offset };
    }
  }
  for (const token of parser.end()) tokens.push(token);
  return { tokens, tooDeepAt: null };
}

function collections(stack: readonly CST.Token[]): number {
  let count = 0;
  for (const token of stack) if (CST.isCollection(token)) count++;
  return count;
}

/** The lines, commas and opening brackets of a text, which grow with the values it holds. */
export function countMarks(text: string): number {
  let count = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13 || code === 44 || code === 91 || code === 123) count++;
  }
  return count;
}
