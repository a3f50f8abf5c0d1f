import type { CompletionItem, CompletionList, MarkupContent } from 'vscode-languageserver/lib/common/api.js';
import type { Context } from './context';

/** What is told of an item when somebody looks at it; null where that is nothing. */
export type About = () => string | null;

/** Lists whose items may still be asked about: a writer has one before him, and perhaps another. */
const MOST_LISTS = 3;

/** What is to be known of completions, told when it is asked for by clients that can ask. */
export class CompletionDocs {
  private readonly lists = new Map<number, readonly (About | null)[]>();
  private count = 0;

  constructor(private readonly context: Context) {}

  /**
   * The list as the client takes it: what is said of its items stays here until it is asked for, or goes along.
   * @param more what is known of items beside what they say themselves, by their labels.
   */
  listed(list: CompletionList, more: ReadonlyMap<string, About> = new Map()): CompletionList {
    if (!this.asks() || list.items.length === 0) return list;
    const id = this.count++;
    const abouts = list.items.map(({ label, documentation }): About | null => {
      const known = more.get(label);
      if (documentation !== undefined) return () => wordsOf(documentation);
      return known ?? null;
    });
    this.lists.set(id, abouts);
    for (const old of this.lists.keys()) {
      if (this.lists.size <= MOST_LISTS) break;
      this.lists.delete(old);
    }
    const items = list.items.map(
      ({ documentation: _, ...item }, index): CompletionItem =>
        abouts[index] === null ? item : { ...item, data: { list: id, index } },
    );
    return { ...list, items };
  }

  /** The item with what is said of it; as it came where that is nothing, or another list is asked about by now. */
  resolved(item: CompletionItem): CompletionItem {
    const { list, index } = (item.data ?? {}) as { list?: number; index?: number };
    const value = this.lists.get(list ?? -1)?.[index ?? -1]?.() ?? null;
    return value === null ? item : { ...item, documentation: { kind: 'markdown', value } };
  }

  private asks(): boolean {
    const able = this.context.client.textDocument?.completion?.completionItem?.resolveSupport?.properties;
    return able?.includes('documentation') === true;
  }
}

const wordsOf = (documentation: string | MarkupContent): string =>
  typeof documentation === 'string' ? documentation : documentation.value;
