/** A page as data, and the least change of the document that makes it so: what stays the same is never touched. */

export interface Branch {
  readonly tag: string;
  /** Tells it from its siblings while they come and go. */
  readonly key: string | null;
  readonly attributes: Readonly<Record<string, string>>;
  readonly click: (() => void) | null;
  /** Of a list of choices: told which was chosen. */
  readonly chosen: ((value: string) => void) | null;
  readonly children: readonly Tree[];
}

export type Tree = Branch | string;

interface Extra {
  readonly key?: string;
  readonly click?: () => void;
  readonly chosen?: (value: string) => void;
}

/** An element. Children that are null are left out; words are text, whatever stands in them. */
export function make(
  tag: string,
  attributes: Readonly<Record<string, string>> = {},
  children: readonly (Tree | null)[] = [],
  { key, click, chosen }: Extra = {},
): Branch {
  return {
    tag,
    key: key ?? null,
    attributes,
    click: click ?? null,
    chosen: chosen ?? null,
    children: children.filter((child) => child !== null),
  };
}

/** Branches that were made before, by key, each with what it was made from: a long page is built anew only where it differs. */
export class Remembered {
  private before = new Map<string, { readonly from: string; readonly branch: Branch }>();
  private now = new Map<string, { readonly from: string; readonly branch: Branch }>();

  /** The branch as it was made last, where it is made from the same. */
  get(key: string, from: string, build: () => Branch): Branch {
    const known = this.before.get(key);
    const kept = known?.from === from ? known : { from, branch: build() };
    this.now.set(key, kept);
    return kept.branch;
  }

  /** What was not asked for since is forgotten. */
  settle(): void {
    this.before = this.now;
    this.now = new Map();
  }
}

const shown = new WeakMap<Node, Branch>();

/** Makes the children of an element those of a tree. */
export function show(parent: Element, children: readonly Tree[]): void {
  const keyed = new Map<string, Element>();
  for (const node of parent.children) {
    const key = shown.get(node)?.key ?? null;
    if (key !== null) keyed.set(key, node);
  }
  let at = parent.firstChild;
  for (const child of children) {
    const found = typeof child !== 'string' && child.key !== null ? keyed.get(child.key) : undefined;
    const fits =
      found !== undefined && found.localName === (child as Branch).tag ? found : fitting(at, child);
    const node = fits ?? created(child);
    if (node === at) at = at.nextSibling;
    else parent.insertBefore(node, at);
    update(node, child);
  }
  while (at !== null) {
    const next: ChildNode | null = at.nextSibling;
    at.remove();
    at = next;
  }
}

/** The node at a place, where it can become what is wanted there. */
function fitting(node: ChildNode | null, child: Tree): ChildNode | null {
  if (node === null) return null;
  if (typeof child === 'string') return node.nodeType === Node.TEXT_NODE ? node : null;
  const before = shown.get(node);
  return before !== undefined && before.tag === child.tag && before.key === child.key ? node : null;
}

function created(child: Tree): ChildNode {
  return typeof child === 'string' ? document.createTextNode(child) : document.createElement(child.tag);
}

function update(node: ChildNode, child: Tree): void {
  if (typeof child === 'string') {
    if (node.nodeValue !== child) node.nodeValue = child;
    return;
  }
  const element = node as HTMLElement;
  const before = shown.get(element);
  if (before === child) return;
  for (const name of Object.keys(before?.attributes ?? {}))
    if (!(name in child.attributes)) {
      if (name.startsWith('--')) element.style.removeProperty(name);
      else element.removeAttribute(name);
    }
  for (const [name, value] of Object.entries(child.attributes)) {
    if (before?.attributes[name] === value) continue;
    // A style attribute would need a policy that allows it; through the object it needs none.
    if (name.startsWith('--')) element.style.setProperty(name, value);
    else element.setAttribute(name, value);
  }
  element.onclick = child.click;
  shown.set(element, child);
  show(element, child.children);
  if (child.chosen === null) return;
  const list = element as HTMLSelectElement;
  list.value = child.attributes.value ?? '';
  list.onchange = () => child.chosen?.(list.value);
}
