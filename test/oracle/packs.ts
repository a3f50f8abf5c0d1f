// The rule packs as plain data: kinds, aids, pieces and rules; and what a name's last words say of its kind.
import { parse } from 'yaml';
import { map, merge, type Raw, text, texts } from './raw.ts';

export interface Packs {
  kinds: Record<string, Raw>;
  aids: Record<string, Raw>;
  pieces: Record<string, Raw>;
  rules: Raw[];
}

/** Reads a YAML document; broken text gives an empty map. */
export function readYaml(source: string | undefined): Raw {
  if (source === undefined) return {};
  try {
    return map(parse(source, { merge: true }));
  } catch {
    return {};
  }
}

const alreadyRead = new WeakMap<Record<string, string>, Packs>();

/** All packs as one, in the order given. Packs are only read once: every variant asks for the same. */
export function readPacks(sources: Record<string, string>): Packs {
  const known = alreadyRead.get(sources);
  if (known) return known;
  const packs: Packs = { kinds: {}, aids: {}, pieces: {}, rules: [] };
  for (const source of Object.values(sources)) {
    const document = readYaml(source);
    packs.kinds = mergeNamed(packs.kinds, document.kinds);
    packs.aids = mergeNamed(packs.aids, document.aids);
    packs.pieces = mergeNamed(packs.pieces, document.pieces);
    if (Array.isArray(document.rules)) packs.rules.push(...document.rules.map(map));
  }
  alreadyRead.set(sources, packs);
  return packs;
}

/** Named bodies with more of them merged in. */
export function mergeNamed(base: Record<string, Raw>, more: unknown): Record<string, Raw> {
  return merge(base, map(more)) as Record<string, Raw>;
}

/** What a kind says, with what its base kinds say beneath it. */
export function kindBody(kinds: Record<string, Raw>, name: string | undefined): Raw {
  let body: Raw = {};
  for (const ancestor of kindChain(kinds, name).reverse()) body = merge(body, map(kinds[ancestor]));
  const { words: _words, kind: _base, note: _note, ...rest } = body;
  return rest;
}

/** A kind and its bases, nearest first. */
export function kindChain(kinds: Record<string, Raw>, name: string | undefined): string[] {
  const chain: string[] = [];
  let current = name;
  while (current !== undefined && !chain.includes(current) && kinds[current]) {
    chain.push(current);
    current = text(kinds[current]?.kind);
  }
  return chain;
}

/** The entry whose name, or one of whose words, is the longest run of last words of a name. */
export function longestSuffix(entries: Record<string, Raw>, name: string): string | undefined {
  const words = name.split('-');
  for (let from = 0; from < words.length; from += 1) {
    const suffix = words.slice(from).join('-');
    if (entries[suffix]) return suffix;
    const byWord = Object.entries(entries).find(([, body]) => texts(body.words).includes(suffix));
    if (byWord) return byWord[0];
  }
  return undefined;
}

/** An aid as the packs name it; singular and plural are one. Unknown names stay as they are. */
export function aidName(packs: Packs, written: string): string {
  const forms = [written, `${written}s`, written.replace(/s$/, '')];
  for (const form of forms) if (packs.aids[form]) return form;
  const byWord = Object.entries(packs.aids).find(([, body]) =>
    texts(body.words).some((word) => forms.includes(word)),
  );
  return byWord ? byWord[0] : written;
}

/** When a piece is used up: once out, once slackened, or not at all. */
export function singleUse(packs: Packs, piece: string): 'out' | 'slackened' | 'no' {
  const entry = longestSuffix(packs.pieces, piece);
  const when = entry === undefined ? undefined : text(packs.pieces[entry]?.['single-use']);
  return when === 'out' || when === 'slackened' ? when : 'no';
}
