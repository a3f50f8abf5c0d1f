/** Pieces of Markdown as a tree: no text of a guide becomes markup. */

import type { BlockContent, ListItem, PhrasingContent, Root, RootContent } from 'mdast';
import { gfmTableToMarkdown } from 'mdast-util-gfm-table';
import { toMarkdown } from 'mdast-util-to-markdown';

export const markdownOf = (children: readonly RootContent[]): string => {
  const root: Root = { type: 'root', children: [...children] };
  return toMarkdown(root, { extensions: [gfmTableToMarkdown()], bullet: '-', emphasis: '_' });
};

export const text = (value: string): PhrasingContent => ({
  type: 'text',
  value: value.replaceAll(/\s+/g, ' '),
});
export const strong = (value: string): PhrasingContent => ({
  type: 'strong',
  children: [text(value.trim())],
});
export const emphasis = (value: string): PhrasingContent => ({ type: 'emphasis', children: [text(value)] });
export const code = (value: string): PhrasingContent => ({ type: 'inlineCode', value });

export const heading = (depth: 1 | 2 | 3 | 4, value: string): RootContent => ({
  type: 'heading',
  depth,
  children: [text(value)],
});

export const paragraph = (...children: PhrasingContent[]): BlockContent => ({ type: 'paragraph', children });

export const quote = (children: PhrasingContent[]): BlockContent => ({
  type: 'blockquote',
  children: [{ type: 'paragraph', children }],
});

/** Items of one paragraph, and what stands below each. */
export const list = (
  items: readonly {
    readonly line: readonly PhrasingContent[];
    readonly below?: readonly BlockContent[];
  }[],
): BlockContent => ({
  type: 'list',
  spread: false,
  children: items.map(
    ({ line, below = [] }): ListItem => ({
      type: 'listItem',
      spread: false,
      children: [{ type: 'paragraph', children: [...line] }, ...below],
    }),
  ),
});

/** A table; columns but the first may be set to the right. */
export const table = (
  head: readonly string[],
  rows: readonly (readonly string[])[],
  align: readonly ('right' | null)[] = [],
): RootContent => ({
  type: 'table',
  align: head.map((_, index) => align[index] ?? null),
  children: [head, ...rows].map((row) => ({
    type: 'tableRow',
    children: row.map((cell) => ({ type: 'tableCell', children: [text(cell)] })),
  })),
});
