import { isMergeKey } from './access';
import { MAX_EXPANDED_VALUES } from './limits';
import type { Node, Problem } from './tree';

export interface Structure {
  readonly problems: readonly Problem[];
  /** Aliases that may be followed, to what they name. */
  readonly targets: ReadonlyMap<Node, Node>;
}

/** What the walk should not complain of, because something else has been reported for it. */
export interface Excuses {
  /** Pairs of the root from here on belong to a second document. */
  readonly secondDocumentAt: number;
  /** True for an anchor that stands in a piece that could not be read whole. */
  readonly anchorLost: (name: string) => boolean;
}

/** Checks a tree and resolves its aliases, in one walk in document order. */
export function checkStructure(root: Node, excuses: Excuses): Structure {
  return new StructureWalk(root, excuses).run();
}

const KNOWN_TAGS = new Set(
  ['str', 'int', 'float', 'bool', 'null', 'map', 'seq', 'merge'].map((name) => `tag:yaml.org,2002:${name}`),
);

interface Anchored {
  readonly node: Node;
  /** How many values it stands for, aliases expanded; null while the walk is inside it. */
  size: number | null;
}

class StructureWalk {
  private readonly problems: Problem[] = [];
  private readonly targets = new Map<Node, Node>();
  /** The latest anchor of each name: an alias means the one last written before it. */
  private readonly anchors = new Map<string, Anchored>();
  private written = 0;
  private lastAlias: Node | null = null;
  private bombAt: Node | null = null;

  constructor(
    private readonly root: Node,
    private readonly excuses: Excuses,
  ) {}

  run(): Structure {
    const expanded = this.visit(this.root) - this.written;
    // No single value is too large, but all of them together may be.
    if (expanded > MAX_EXPANDED_VALUES) this.bombAt ??= this.lastAlias;
    if (this.bombAt === null) return { problems: this.problems, targets: this.targets };
    this.report(
      'alias-bomb',
      this.bombAt,
      'Written out in full, what is repeated with * has no end; none of it is read.',
    );
    return { problems: this.problems, targets: new Map() };
  }

  /** Gives the number of values beneath a node, aliases expanded. */
  private visit(node: Node): number {
    this.written++;
    if (node.kind === 'alias') return this.alias(node);
    if (node.tag !== null && !KNOWN_TAGS.has(node.tag)) {
      const message = 'A text cannot begin with !; put it in quotes.';
      const start = node.start < node.end ? node.start : Math.max(0, node.start - 1);
      this.problems.push({ rule: 'unknown-tag', start, end: Math.max(node.end, start + 1), message });
    }
    const anchored: Anchored = { node, size: null };
    if (node.anchor !== null) this.anchors.set(node.anchor, anchored);
    let size = 1;
    const names = node.keys === null ? null : new Set<string>();
    for (let index = 0; index < (node.items?.length ?? 0); index++) {
      const key = node.keys?.[index];
      const item = node.items![index]!;
      if (key) size += this.visit(key);
      size += this.visit(item);
      if (!key || names === null) continue;
      this.key(node, key, names);
      if (isMergeKey(key)) this.merge(item);
    }
    anchored.size = size;
    return size;
  }

  private alias(node: Node): number {
    const name = String(node.value);
    const anchored = this.anchors.get(name);
    if (anchored === undefined) {
      if (!this.excuses.anchorLost(name)) {
        this.report(
          'unknown-alias',
          node,
          `Nothing above is named &${name}, so *${name} stands for nothing.`,
        );
      }
      return 1;
    }
    if (anchored.size === null) {
      this.report(
        'alias-cycle',
        node,
        `*${name} stands inside the very value that it repeats, which never ends.`,
      );
      return 1;
    }
    this.targets.set(node, anchored.node);
    this.lastAlias = node;
    if (anchored.size > MAX_EXPANDED_VALUES) this.bombAt ??= node;
    return anchored.size;
  }

  private key(map: Node, key: Node, names: Set<string>): void {
    const node = this.targets.get(key) ?? key;
    if (node.kind === 'alias') return;
    if (node.kind !== 'scalar' || node.value === null) {
      const message =
        node.kind === 'scalar'
          ? 'A name is missing before this colon.'
          : 'A name must be a word, not a list or a map.';
      this.report('non-string-key', key, message);
      return;
    }
    const name = String(node.value);
    if (typeof node.value !== 'string') {
      const kind = typeof node.value === 'number' ? 'a number' : 'true or false';
      this.report('non-string-key', key, `As a name, this reads as ${kind}; put it in quotes.`);
    }
    if (!names.has(name)) names.add(name);
    else if (map !== this.root || key.start < this.excuses.secondDocumentAt) {
      this.report(
        'duplicate-key',
        key,
        `"${shortened(name)}" stands here a second time; only the first one counts.`,
      );
    }
  }

  private merge(value: Node): void {
    const sources = this.targets.get(value) ?? value;
    const list = sources.kind === 'seq' ? sources.items! : [sources];
    for (const item of list) {
      const source = this.targets.get(item) ?? item;
      if (source.kind === 'map' || source.kind === 'alias') continue;
      const at = value.kind === 'alias' ? value : item;
      this.report(
        'bad-merge',
        at.start < at.end ? at : value,
        'Behind << stands a map, an alias of a map, or a list of these.',
      );
      return;
    }
  }

  private report(rule: string, node: Node, message: string): void {
    this.problems.push({ rule, start: node.start, end: node.end, message });
  }
}

function shortened(name: string): string {
  return name.length > 40 ? `${name.slice(0, 40)}…` : name;
}
