import { type DocumentEvent, type Event, getScalarValue, parseEvents, type ScalarEvent } from 'js-yaml';
import { hasBrackets, lineEnd, skipBlanks, TreeNode, trimBack } from './build';
import { emptyValue, fullTag, scalarValue } from './scalar';
import type { NodeStyle } from './tree';

const DOCUMENT = 1;
const SEQUENCE = 2;
const MAPPING = 3;
const SCALAR = 4;
const ALIAS = 5;
const SCALAR_STYLES: readonly NodeStyle[] = ['plain', 'plain', 'single', 'double', 'literal', 'folded'];
const FLOW_STYLE = 2;

const COMMA = 44;
const DASH = 45;
const COLON = 58;
const QUESTION = 63;
const PIPE = 124;
const GREATER = 62;
const BRACE = 123;
const BRACKET = 91;
const PERCENT = 37;

/**
 * Reads well-formed text, one tree a document (null for an empty one). Throws on ill-formed text and on nesting
 * deeper than a hundred. Lone CRs and a byte order mark must have been masked before.
 */
export function readFast(text: string): (TreeNode | null)[] {
  const reader = new EventReader(text);
  for (const event of parseEvents(text, {})) reader.take(event);
  return reader.documents;
}

/**
 * Turns parser events into nodes. Events leave out where collections end, where empty values stand and where `:`,
 * `---` and block headers are; `cursor`, the end of the last thing placed, finds them again over blanks and comments.
 */
class EventReader {
  readonly documents: (TreeNode | null)[] = [];
  private cursor = 0;
  private open: TreeNode | null = null;
  /** The key of the open map that still lacks its value. */
  private awaiting: TreeNode | null = null;
  private readonly outer: { node: TreeNode | null; awaiting: TreeNode | null }[] = [];
  private root: TreeNode | null = null;
  private documentsBegun = 0;
  private handles: Map<string, string> = new Map();

  constructor(private readonly text: string) {}

  take(event: Event): void {
    switch (event.type) {
      case DOCUMENT:
        this.beginDocument(event);
        return;
      case SCALAR:
        this.place(this.scalar(event));
        return;
      case ALIAS: {
        const name = this.text.slice(event.anchorStart, event.anchorEnd);
        this.cursor = event.anchorEnd;
        this.place(new TreeNode('alias', event.anchorStart - 1, event.anchorEnd, name, 'plain', null, null));
        return;
      }
      case SEQUENCE:
      case MAPPING: {
        const { anchor, tag } = this.properties(event);
        const style = event.style === FLOW_STYLE ? 'flow' : 'block';
        const node = new TreeNode(
          event.type === MAPPING ? 'map' : 'seq',
          event.start,
          -1,
          null,
          style,
          tag,
          anchor,
        );
        const first = this.text.charCodeAt(event.start);
        this.cursor =
          style === 'flow' && (first === BRACE || first === BRACKET) ? event.start + 1 : event.start;
        this.place(node);
        this.outer.push({ node: this.open, awaiting: this.awaiting });
        this.open = node;
        this.awaiting = null;
        return;
      }
      default:
        this.close();
    }
  }

  private place(node: TreeNode): void {
    const open = this.open;
    if (open === null) this.root = node;
    else if (open.keys === null) open.items!.push(node);
    else if (this.awaiting === null) {
      open.keys.push(node);
      this.awaiting = node;
    } else {
      open.items!.push(node);
      this.awaiting = null;
    }
  }

  private close(): void {
    const node = this.open;
    if (node === null) {
      this.documents.push(this.root);
      this.root = null;
      return;
    }
    if (hasBrackets(node, this.text)) {
      let at = this.past(skipBlanks(this.text, this.cursor), COMMA);
      if (node.kind === 'map') at = this.past(this.past(at, COLON), COMMA);
      this.cursor = node.end = at + 1;
    } else {
      if (node.keys && node.keys.length > 0) node.start = node.keys[0]!.start;
      node.end = this.cursor;
    }
    const outer = this.outer.pop()!;
    this.open = outer.node;
    this.awaiting = outer.awaiting;
  }

  /** Steps over one character and the blanks behind it, where it is the given one. */
  private past(at: number, code: number): number {
    return this.text.charCodeAt(at) === code ? skipBlanks(this.text, at + 1) : at;
  }

  private beginDocument(event: DocumentEvent): void {
    this.handles = new Map();
    for (const directive of event.directives) {
      if (directive.kind === 'tag') this.handles.set(directive.handle, directive.prefix);
    }
    const first = this.documentsBegun++ === 0;
    if (first && !event.explicitStart && event.directives.length === 0) return;
    let at = skipBlanks(this.text, this.cursor);
    for (;;) {
      if (this.text.startsWith('...', at)) at = skipBlanks(this.text, at + 3);
      else if (this.isDirective(at)) at = skipBlanks(this.text, lineEnd(this.text, at));
      else break;
    }
    this.cursor = event.explicitStart && this.text.startsWith('---', at) ? at + 3 : at;
  }

  private isDirective(at: number): boolean {
    if (this.text.charCodeAt(at) !== PERCENT) return false;
    const before = at === 0 ? 10 : this.text.charCodeAt(at - 1);
    return before === 10 || before === 13;
  }

  private properties(event: { anchorStart: number; anchorEnd: number; tagStart: number; tagEnd: number }) {
    const anchor = event.anchorStart >= 0 ? this.text.slice(event.anchorStart, event.anchorEnd) : null;
    const tag =
      event.tagStart >= 0 ? fullTag(this.text.slice(event.tagStart, event.tagEnd), this.handles) : null;
    return {
      anchor,
      tag,
      end: Math.max(anchor === null ? -1 : event.anchorEnd, tag === null ? -1 : event.tagEnd),
    };
  }

  private scalar(event: ScalarEvent): TreeNode {
    const { anchor, tag, end: propertiesEnd } = this.properties(event);
    if (event.valueStart < 0) {
      const at = propertiesEnd >= 0 ? propertiesEnd : this.emptyPlace();
      this.cursor = at;
      return new TreeNode('scalar', at, at, emptyValue(tag), 'plain', tag, anchor);
    }
    const style = SCALAR_STYLES[event.style] ?? 'plain';
    const source = event.fast
      ? this.text.slice(event.valueStart, event.valueEnd)
      : getScalarValue(this.text, event);
    const value = scalarValue(source, style === 'plain', tag);
    let start = event.valueStart;
    let end = event.valueEnd;
    if (style === 'single' || style === 'double') {
      start--;
      end++;
    } else if (style !== 'plain') {
      start = this.blockHeader(event, propertiesEnd);
      end = trimBack(this.text, start + 1, end);
    }
    this.cursor = end;
    return new TreeNode('scalar', start, end, value, style, tag, anchor);
  }

  /** An empty key or value stands right behind its indicator. */
  private emptyPlace(): number {
    const open = this.open;
    if (open === null || (open.kind === 'seq' && open.style === 'flow')) return this.cursor;
    if (open.kind === 'map' && this.awaiting !== null) return this.behindColon(this.cursor);
    let at = skipBlanks(this.text, this.cursor);
    if (open.kind === 'seq') return this.text.charCodeAt(at) === DASH ? at + 1 : at;
    if (open.style === 'flow') {
      at = this.past(at, COMMA);
      if (at === open.start) at = this.past(at, BRACE);
    }
    return this.text.charCodeAt(at) === QUESTION ? at + 1 : at;
  }

  private behindColon(from: number): number {
    const at = skipBlanks(this.text, from);
    return this.text.charCodeAt(at) === COLON ? at + 1 : from;
  }

  /** Where the `|` or `>` of a block scalar stands. */
  private blockHeader(event: ScalarEvent, propertiesEnd: number): number {
    let at = Math.max(propertiesEnd, this.cursor);
    if (this.open?.kind === 'map' && this.awaiting !== null && propertiesEnd < 0) at = this.behindColon(at);
    for (;;) {
      at = skipBlanks(this.text, at);
      const code = this.text.charCodeAt(at);
      if (code === PIPE || code === GREATER) return at;
      if (++at >= event.valueStart) return event.valueStart;
    }
  }
}
