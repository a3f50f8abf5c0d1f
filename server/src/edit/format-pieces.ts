/** A text taken apart into what is written in it, each piece with the column that it belongs at. */

import type { CST } from 'yaml';
import { boundedTokens } from '../text/limits';

/** How far what belongs to something stands behind it. */
const STEP = 2;

export interface Piece {
  readonly type: string;
  readonly source: string;
  readonly start: number;
  /** Whether it is within brackets, whose lines are moved with what holds them and otherwise stay as they are. */
  readonly flow: boolean;
  /** Where it stands if it begins a line; in brackets, the column that it stays to the right of. */
  readonly column: number;
  /** How far the map or list in lines that holds it is moved. */
  readonly shift: number;
  /** Whether it begins an element or a pair in lines: comments go by these. */
  readonly heads: boolean;
}

/** The map or list in lines that something belongs to: its column as it is, and as it will be. */
interface Holder {
  readonly old: number;
  readonly fresh: number;
}

const TOP: Holder = { old: -STEP, fresh: -STEP };

/** What may stand between values. Keys marked by `?` are rare, and left as they are. */
const LAID_OUT: ReadonlySet<string> = new Set([
  'comment',
  'newline',
  'anchor',
  'tag',
  'seq-item-ind',
  'map-value-ind',
  'comma',
  'flow-map-end',
  'flow-seq-end',
]);

/**
 * The pieces of a text in order, without the blanks between them. Null for what is not laid out: several documents, keys
 * marked by `?`, and what cannot be read.
 */
export function piecesOf(text: string): Piece[] | null {
  const { tokens, tooDeepAt } = boundedTokens(text);
  if (tooDeepAt !== null) return null;
  const walk = new Walk();
  return tokens.every((token) => walk.top(token)) ? walk.pieces : null;
}

/** Each method says whether all that it was given can be laid out. */
class Walk {
  readonly pieces: Piece[] = [];
  private documents = 0;

  top(token: CST.Token): boolean {
    if (token.type === 'byte-order-mark') return this.put(token, TOP, 0, false);
    if (token.type !== 'document') return this.between([token as CST.SourceToken], TOP, 0, false);
    this.documents++;
    const { start, value, end = [] } = token;
    if (this.documents > 1 || (value?.type !== 'block-map' && value?.type !== 'flow-collection'))
      return false;
    return (
      start.every((one) =>
        one.type === 'doc-start' ? this.put(one, TOP, 0, false) : this.between([one], TOP, 0, false),
      ) &&
      this.value(value, TOP, 0, false) &&
      this.between(end, TOP, 0, false)
    );
  }

  private value(token: CST.Token, holder: Holder, column: number, flow: boolean): boolean {
    switch (token.type) {
      case 'block-map':
      case 'block-seq':
        return this.block(token, { old: token.indent, fresh: holder.fresh + STEP });
      case 'flow-collection':
        this.put(token.start, holder, column, flow);
        return (
          token.items.every((item) => this.inBrackets(item, holder)) &&
          this.between(token.end.slice(0, 1), holder, holder.fresh + STEP, true) &&
          // Behind the outermost bracket stands what belongs to the lines around.
          this.between(token.end.slice(1), holder, column, flow)
        );
      case 'alias':
      case 'scalar':
      case 'single-quoted-scalar':
      case 'double-quoted-scalar':
        this.put(token, holder, column, flow);
        return this.between(token.end ?? [], holder, column, flow);
      case 'block-scalar':
        return this.lines(token, holder);
      default:
        return false;
    }
  }

  private block({ items }: CST.BlockMap | CST.BlockSequence, holder: Holder): boolean {
    const inner = holder.fresh + STEP;
    return (items as readonly CST.CollectionItem[]).every(({ start, key, sep = [], value }) => {
      const from = this.pieces.length;
      let column = holder.fresh;
      for (const token of start) {
        if (!this.between([token], holder, column, false)) return false;
        if (token.type === 'seq-item-ind') column = inner;
      }
      if (key && !this.value(key, holder, column, false)) return false;
      const head = this.pieces.findIndex(
        ({ type }, index) => index >= from && type !== 'comment' && type !== 'newline',
      );
      if (head >= 0) this.pieces[head] = { ...this.pieces[head]!, heads: true };
      return (
        this.between(sep, holder, inner, false) &&
        (value === undefined || this.value(value, holder, inner, false))
      );
    });
  }

  private inBrackets({ start, key, sep = [], value }: CST.CollectionItem, holder: Holder): boolean {
    const least = holder.fresh + STEP;
    return (
      this.between(start, holder, least, true) &&
      (!key || this.value(key, holder, least, true)) &&
      this.between(sep, holder, least, true) &&
      (value === undefined || this.value(value, holder, least, true))
    );
  }

  private between(
    tokens: readonly CST.SourceToken[],
    holder: Holder,
    column: number,
    flow: boolean,
  ): boolean {
    for (const token of tokens) {
      if (token.type === 'space') continue;
      if (!LAID_OUT.has(token.type)) return false;
      this.put(token, holder, column, flow);
    }
    return true;
  }

  private put(
    { type, source, offset }: { readonly type: string; readonly source: string; readonly offset: number },
    holder: Holder,
    column: number,
    flow: boolean,
  ): true {
    const shift = holder.fresh - holder.old;
    this.pieces.push({ type, source, start: offset, flow, column, shift, heads: false });
    return true;
  }

  /** A text in lines of its own: they are laid out here, with what more they are indented by. */
  private lines({ source, offset, indent, props }: CST.BlockScalar, holder: Holder): boolean {
    const inner = holder.fresh + STEP;
    const header = props.find(({ type }) => type === 'block-scalar-header') as CST.SourceToken | undefined;
    if (header === undefined) return false;
    for (const one of props) {
      if (one === header) this.put(header, holder, inner, false);
      else if (!this.between([one as CST.SourceToken], holder, inner, false)) return false;
    }
    // With a figure in its head its blanks are counted from where what holds it stands; else its first line shows them.
    const counted = /[1-9]/.exec(header.source);
    const first = source.split(/\r?\n/).find((line) => line.trim() !== '') ?? '';
    const old = counted === null ? /^ */.exec(first)![0].length : indent + Number(counted[0]);
    const fresh = counted === null ? inner : holder.fresh + Number(counted[0]);
    const laid = source.split('\n').map((line) => {
      const own = line.endsWith('\r') ? line.slice(0, -1) : line;
      const text = own.slice(old);
      return `${text === '' ? '' : ' '.repeat(fresh) + text}${line.slice(own.length)}`;
    });
    return this.put(
      { type: 'block-scalar', source: first === '' ? source : laid.join('\n'), offset },
      holder,
      holder.fresh,
      false,
    );
  }
}
