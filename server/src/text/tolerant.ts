import {
  Composer,
  type Document,
  type ErrorCode,
  isAlias,
  isCollection,
  isMap,
  isScalar,
  type ParsedNode,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { hasBrackets, skipBlanks, TreeNode, trimBack } from './build';
import { boundedTokens } from './limits';
import { emptyValue, scalarValue } from './scalar';
import type { NodeStyle } from './tree';

/** What the tolerant producer found wrong, in its library's terms; `syntax.ts` says it in a writer's. */
export interface SyntaxFault {
  readonly code: ErrorCode | 'TOO_DEEP' | 'UNREADABLE';
  readonly start: number;
  readonly end: number;
  /** The library's own message, by which mistakes of one code are told apart. */
  readonly detail: string;
}

export interface TolerantResult {
  readonly documents: readonly (TreeNode | null)[];
  /** In order of their start. */
  readonly faults: readonly SyntaxFault[];
}

const OPTIONS = {
  // What these would check or resolve is done on the tree, with spans, in linear time.
  uniqueKeys: false,
  merge: false,
  resolveKnownTags: false,
  schema: 'core',
  version: '1.2',
  prettyErrors: false,
  logLevel: 'silent',
  stringKeys: false,
  strict: true,
} as const;

const STYLES: Readonly<Record<string, NodeStyle>> = {
  PLAIN: 'plain',
  QUOTE_SINGLE: 'single',
  QUOTE_DOUBLE: 'double',
  BLOCK_LITERAL: 'literal',
  BLOCK_FOLDED: 'folded',
};

/** Reads any text, as well as it can be read. Never throws. Spans and values are those of `readFast`. */
export function readTolerant(text: string): TolerantResult {
  try {
    const { tokens, tooDeepAt } = boundedTokens(text);
    if (tooDeepAt !== null) {
      return {
        documents: [],
        faults: [{ code: 'TOO_DEEP', start: tooDeepAt, end: tooDeepAt + 1, detail: '' }],
      };
    }
    const documents: TreeNode[] = [];
    const faults: SyntaxFault[] = [];
    for (const document of new Composer(OPTIONS).compose(tokens)) {
      documents.push(new Converter(text).document(document));
      for (const error of document.errors) {
        faults.push({ code: error.code, start: error.pos[0], end: error.pos[1], detail: error.message });
      }
    }
    faults.sort((a, b) => a.start - b.start);
    return { documents, faults };
  } catch {
    // The library promises not to throw; should it, the piece counts as unreadable from its first character on.
    const start = skipBlanks(text, 0);
    return { documents: [], faults: [{ code: 'UNREADABLE', start, end: start + 1, detail: '' }] };
  }
}

class Converter {
  constructor(private readonly text: string) {}

  document(document: Document.Parsed): TreeNode {
    return this.node(document.contents, document.range[0]);
  }

  /** `hint` is where an absent value stands: behind what was last placed. */
  private node(source: ParsedNode | null, hint: number): TreeNode {
    if (source === null) return new TreeNode('scalar', hint, hint, null, 'plain', null, null);
    if (isAlias(source)) {
      return new TreeNode('alias', source.range[0], source.range[1], source.source, 'plain', null, null);
    }
    if (isScalar(source)) return this.scalar(source);
    return isCollection(source) ? this.collection(source) : this.node(null, hint);
  }

  private collection(source: (YAMLMap | YAMLSeq) & ParsedNode): TreeNode {
    const [start, end] = source.range;
    const style = source.flow ? 'flow' : 'block';
    const node = new TreeNode(
      isMap(source) ? 'map' : 'seq',
      start,
      end,
      null,
      style,
      source.tag ?? null,
      source.anchor ?? null,
    );
    let last = start;
    if (isMap(source)) {
      for (const pair of source.items) {
        const key = this.key(pair.key as ParsedNode | null, last);
        const value = this.node(pair.value as ParsedNode | null, key.end);
        node.keys!.push(key);
        node.items!.push(value);
        last = value.end;
      }
    } else {
      for (const item of source.items) {
        const value = this.node(item as ParsedNode, last);
        node.items!.push(value);
        last = value.end;
      }
    }
    if (!hasBrackets(node, this.text)) {
      const lastItem = node.items!.at(-1);
      if (lastItem) node.end = lastItem.end;
      if (node.keys?.[0]) node.start = node.keys[0].start;
    }
    return node;
  }

  private key(source: ParsedNode | null, hint: number): TreeNode {
    const key = this.node(source, hint);
    const bare = key.kind === 'scalar' && key.start === key.end && key.anchor === null && key.tag === null;
    // An absent key stands at its colon, unless a `?` announced it.
    if (bare && this.text[key.start - 1] !== '?') key.start = key.end = skipBlanks(this.text, key.start);
    return key;
  }

  private scalar(source: Scalar.Parsed): TreeNode {
    let [start, end] = source.range;
    const style = STYLES[source.type ?? 'PLAIN'] ?? 'plain';
    const tag = source.tag ?? null;
    const anchor = source.anchor ?? null;
    if (style === 'plain' && start === end) {
      start = end = trimBack(this.text, 0, start);
      return new TreeNode('scalar', start, end, emptyValue(tag), 'plain', tag, anchor);
    }
    if (style === 'literal' || style === 'folded') end = trimBack(this.text, start + 1, end);
    return new TreeNode(
      'scalar',
      start,
      end,
      scalarValue(source.source, style === 'plain', tag),
      style,
      tag,
      anchor,
    );
  }
}
