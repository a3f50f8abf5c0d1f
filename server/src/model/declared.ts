/** The parts and lines that one file declares, with kind, `like` and their own words merged. */

import { type Body, bodyOf, bodySize, bodyWithout, mergeBodies, textOf } from './body';
import type { KindTable, MergedKind } from './kinds';
import type { Origin } from './model';
import { Cursor, entriesAt, type OpenDocument } from './source';

/** Values that `like` may bring into one file in all; a hostile chain that grows at every link ends here. */
const MOST_INHERITED = 100_000;

/** What a copy does not copy: everything else is copied, what a kit's part replaces too. */
const NOT_COPIED: ReadonlySet<string> = new Set(['like', 'note']);

export interface Declared {
  readonly type: 'part' | 'line';
  readonly name: string;
  readonly origin: Origin;
  /** Where its name stands with what is said of it; null for what is known from use. */
  readonly cursor: Cursor | null;
  /** What it says itself and by `like`, without its kind. */
  readonly own: Body;
  readonly kind: MergedKind | null;
  /** Kind, `like` and self. */
  readonly body: Body;
}

export interface DeclaredFile {
  readonly document: OpenDocument;
  readonly things: ReadonlyMap<string, Declared>;
  /** Names that stand a second time, with where. */
  readonly doubles: readonly { readonly name: string; readonly cursor: Cursor; readonly first: Cursor }[];
}

/**
 * Reads the parts and lines of a vehicle or kit. Circles of `like` are cut where they close.
 * @param beside what else a thing may be `like`: a kit's things, the vehicle's.
 */
export function declaredThings(
  document: OpenDocument,
  kinds: KindTable,
  beside: ReadonlyMap<string, Declared> = new Map(),
): DeclaredFile {
  const root = Cursor.of(document);
  const origin: Origin = document.kind === 'kit' ? 'kit' : 'vehicle';
  const cursors = new Map<string, { type: 'part' | 'line'; cursor: Cursor }>();
  const doubles: { name: string; cursor: Cursor; first: Cursor }[] = [];
  for (const type of ['part', 'line'] as const) {
    for (const [name, cursor] of entriesAt(root, `${type}s`)) {
      const first = cursors.get(name);
      if (first !== undefined) doubles.push({ name, cursor, first: first.cursor });
      else cursors.set(name, { type, cursor });
    }
  }
  const owns = ownBodies(cursors, beside);
  const things = new Map<string, Declared>();
  for (const [name, { type, cursor }] of cursors) {
    const own = owns.get(name)!;
    const kindName = textOf(own, 'kind');
    const kind = kindName === null ? null : kinds.get(kindName);
    const body = kind === null ? own : mergeBodies(kind.body, own);
    things.set(name, { type, name, origin, cursor, own, kind, body });
  }
  return { document, things, doubles };
}

/** The body of each thing with what it is `like`. */
function ownBodies(cursors: Cursors, beside: ReadonlyMap<string, Declared>): Map<string, Body> {
  const bodies = new Map<string, Body>();
  let left = MOST_INHERITED;
  for (const start of cursors.keys()) {
    // From the thing to the last of its models, then back: a chain may be longer than a stack is deep.
    const chain: string[] = [];
    const onChain = new Set<string>();
    for (let at: string | null = start; at !== null && !bodies.has(at) && !onChain.has(at); ) {
      onChain.add(at);
      chain.push(at);
      at = likeOf(cursors, at);
    }
    for (let index = chain.length - 1; index >= 0; index--) {
      const name = chain[index]!;
      const own = bodyOf(cursors.get(name)!.cursor);
      const like = likeOf(cursors, name);
      const elsewhere = like === null ? otherModel(cursors, beside, name) : undefined;
      const model = like === null ? elsewhere : bodies.get(like);
      if (model === undefined || left <= 0) {
        bodies.set(name, own);
        continue;
      }
      const merged = mergeBodies(bodyWithout(model, NOT_COPIED), own);
      left -= bodySize(merged);
      bodies.set(name, merged);
    }
  }
  return bodies;
}

type Cursors = ReadonlyMap<string, { readonly type: string; readonly cursor: Cursor }>;

/** The body of a thing beside the file that a thing is `like`, with the name of its kind. */
function otherModel(cursors: Cursors, beside: ReadonlyMap<string, Declared>, name: string): Body | undefined {
  const { type, cursor } = cursors.get(name)!;
  const like = cursor.get('like')?.text ?? null;
  const model = like === null || cursors.has(like) ? undefined : beside.get(like);
  return model?.type === type ? model.own : undefined;
}

/** The thing of the same sort in the file that a thing is `like`. */
function likeOf(cursors: Cursors, name: string): string | null {
  const { type, cursor } = cursors.get(name)!;
  const like = cursor.get('like')?.text ?? null;
  return like !== null && like !== name && cursors.get(like)?.type === type ? like : null;
}
