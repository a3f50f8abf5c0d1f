/** Values written as YAML, in braces or in lines. */

import { resolvePlain } from '../text/scalar';

export type Value = string | number | boolean | null | readonly Value[] | { readonly [key: string]: Value };

/** How what is written below the value itself is laid out. */
export interface Layout {
  /** Whether lists and maps so deep below the value (it is at 0) stand in brackets; what is in brackets holds no lines. */
  flow(kind: 'list' | 'map', depth: number): boolean;
  /** How far the dashes of a list stand behind the key that they stand under. */
  readonly dash: number;
  /** Whether blanks stand inside braces. */
  readonly padded: boolean;
}

export const IN_BRACES: Layout = { flow: () => true, dash: 2, padded: true };

/** Longer lines than this are not written where the same may stand in several. */
const LONGEST_LINE = 110;

/** A value in one line, as it may stand anywhere in a map or list in brackets. */
export function inFlow(value: Value, padded = true): string {
  if (isList(value)) return `[${value.map((item) => inFlow(item, padded)).join(', ')}]`;
  if (!isMap(value)) return scalarText(value, true);
  const pairs = Object.entries(value).map(
    ([key, item]) => `${scalarText(key, true)}: ${inFlow(item, padded)}`,
  );
  if (pairs.length === 0) return '{}';
  return padded ? `{ ${pairs.join(', ')} }` : `{${pairs.join(', ')}}`;
}

/**
 * A value as an element of a list in lines, without its dash. Further lines are indented for an element whose first
 * character stands at `column`.
 */
export function asElement(value: Value, column: number, layout: Layout, lineBreak: string): string {
  return element(value, column, 0, { layout, lineBreak });
}

/** What stands behind the colon of a key at `column`, with the blank or line break before it. */
export function asPairValue(
  value: Value,
  column: number,
  used: number,
  layout: Layout,
  lineBreak: string,
): string {
  return behindKey(value, column, used, 1, { layout, lineBreak });
}

interface Writing {
  readonly layout: Layout;
  readonly lineBreak: string;
}

function element(value: Value, column: number, depth: number, writing: Writing): string {
  const { layout, lineBreak } = writing;
  if (isMap(value) && Object.keys(value).length > 0 && !layout.flow('map', depth)) {
    return Object.entries(value)
      .map(([key, item]) => {
        const written = scalarText(key, false);
        return `${written}:${behindKey(item, column, column + written.length + 2, depth + 1, writing)}`;
      })
      .join(lineBreak + ' '.repeat(column));
  }
  return isList(value) || isMap(value) ? inFlow(value, layout.padded) : scalarText(value, false);
}

function behindKey(value: Value, column: number, used: number, depth: number, writing: Writing): string {
  const { layout, lineBreak } = writing;
  const line = isList(value) || isMap(value) ? inFlow(value, layout.padded) : scalarText(value, false);
  const kind = isList(value) ? 'list' : 'map';
  const small = !(isList(value) || isMap(value)) || Object.keys(value).length === 0 || isPlainList(value);
  if (small || (layout.flow(kind, depth) && used + line.length <= LONGEST_LINE)) return ` ${line}`;
  if (isMap(value)) {
    const inner = column + 2;
    return `${lineBreak}${' '.repeat(inner)}${element(value, inner, depth, writing)}`;
  }
  const dashes = column + layout.dash;
  return (value as readonly Value[])
    .map((item) => `${lineBreak}${' '.repeat(dashes)}- ${element(item, dashes + 2, depth + 1, writing)}`)
    .join('');
}

/** A scalar so that it reads as exactly this value: plainly where that can be, else in double quotes. */
export function scalarText(value: string | number | boolean | null, inBrackets: boolean): string {
  if (typeof value !== 'string') return String(value);
  return isPlainText(value, inBrackets) ? value : quotedText(value);
}

/** What other YAML readers take for true and false. */
const TRUTHS: ReadonlySet<string> = new Set(['on', 'off', 'yes', 'no', 'y', 'n']);

function isPlainText(text: string, inBrackets: boolean): boolean {
  if (text === '' || text !== text.trim() || resolvePlain(text) !== text) return false;
  if (TRUTHS.has(text.toLowerCase()) || text.startsWith('---') || text.startsWith('...')) return false;
  if ('-?:,[]{}#&*!|>\'"%@`'.includes(text[0]!) || text === '<<' || text === '=') return false;
  if (text.endsWith(':') || text.includes(': ') || text.includes(' #')) return false;
  if (inBrackets && [...'[]{},'].some((mark) => text.includes(mark))) return false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code < 32 || (code >= 0x7f && code < 0xa0) || code === 0x2028 || code === 0x2029 || code === 0xfeff)
      return false;
    if (code >= 0xd800 && code < 0xe000) return false;
  }
  return true;
}

function quotedText(text: string): string {
  let written = '';
  for (const char of JSON.stringify(text)) {
    const code = char.charCodeAt(0);
    const strange = (code >= 0x7f && code < 0xa0) || code === 0x2028 || code === 0x2029 || code === 0xfeff;
    written += strange ? `\\u${code.toString(16).padStart(4, '0')}` : char;
  }
  return written;
}

const isList = (value: Value): value is readonly Value[] => Array.isArray(value);
const isMap = (value: Value): value is { readonly [key: string]: Value } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
/** A list of words alone: it always stands in one line. */
const isPlainList = (value: Value): boolean =>
  isList(value) && value.every((item) => !isList(item) && !isMap(item));
