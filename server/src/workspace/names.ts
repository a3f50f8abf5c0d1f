import type { Place } from '../findings/finding';
import { schemaAt } from '../schema/describe';
import { follow, keyName } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from './document';

/** What sort of thing a name names; names of one sort are one name space. */
export type NameGroup =
  | 'item'
  | 'kind'
  | 'trait'
  | 'found'
  | 'aid'
  | 'piece'
  | 'rule'
  | 'step'
  | 'section'
  | 'vehicle';

/** A name where it is written. */
export interface Name {
  readonly group: NameGroup;
  /** `front-shock`, or of what belongs to a part `front-shock.lower-bolt`. */
  readonly name: string;
  readonly place: Place;
  /** It is declared here, not used. */
  readonly declares: boolean;
}

const GROUPS: Readonly<Record<string, NameGroup>> = {
  part: 'item',
  line: 'item',
  target: 'item',
  joint: 'item',
  end: 'item',
  hole: 'item',
  kind: 'kind',
  trait: 'trait',
  aid: 'aid',
  piece: 'piece',
  rule: 'rule',
  section: 'section',
  vehicle: 'vehicle',
};

/** What the keys of a document's maps declare, by the path of the map. */
const DECLARING: Readonly<Record<string, NameGroup>> = {
  parts: 'item',
  lines: 'item',
  hardware: 'item',
  kinds: 'kind',
  traits: 'trait',
  options: 'trait',
  aids: 'aid',
  pieces: 'piece',
};
const SUBS: ReadonlySet<string> = new Set(['joints', 'ends', 'holes', 'faces']);

/** Every name of a document, declared or used, in order of place. */
export function namesOf(document: Document): readonly Name[] {
  const { reading, kind, uri } = document;
  const { root } = reading;
  if (root === null || kind === null) return [];
  const found: Name[] = [];
  const add = (group: NameGroup, name: string, start: number, end: number, declares: boolean): void => {
    found.push({ group, name, place: { uri, span: { start, end } }, declares });
  };
  const used = (group: NameGroup, node: Node, written: string): void => {
    const start = plainStart(node, written);
    // Only what stands there letter by letter can be told apart.
    if (start === null) add(group, written, node.start, node.end, false);
    else parted(group, written, start);
  };
  /** Of `part.joint.piece` the part, the joint and the piece are names, each from the beginning. */
  const parted = (group: NameGroup, written: string, start: number): void => {
    if (group === 'item')
      for (let dot = written.indexOf('.'); dot > 0; dot = written.indexOf('.', dot + 1))
        add(group, written.slice(0, dot), start, start + dot, false);
    add(group, written, start, start + written.length, false);
  };
  /** Where a name stands as it reads, inside its quotes where it has any; null where it is written in another way. */
  const plainStart = (node: Node, written: string): number | null => {
    const there = document.text.slice(node.start, node.end);
    if (there === written) return node.start;
    return (node.style === 'single' || node.style === 'double') && there.slice(1, -1) === written
      ? node.start + 1
      : null;
  };
  const visit = (node: Node, path: readonly (string | number)[]): void => {
    const value = follow(node, reading);
    // What an alias names is looked at where it is written.
    if (value !== node) return;
    if (node.kind === 'scalar') {
      if (typeof node.value === 'string') visitText(node, path);
      return;
    }
    node.items?.forEach((item, index) => {
      const key = node.keys?.[index];
      const name = key === undefined ? index : keyName(key, reading);
      if (name === null) return;
      if (key !== undefined && typeof name === 'string') visitKey(key, name, path);
      visit(item, [...path, name]);
    });
  };
  const visitKey = (key: Node, name: string, path: readonly (string | number)[]): void => {
    const declared = declaredBy(path, name);
    if (declared !== null) {
      add(declared.group, declared.name, key.start, key.end, true);
      return;
    }
    const schema = schemaAt(kind, root, reading, path);
    const use = GROUPS[schema?.['x-names'] ?? ''] ?? (schema?.['x-condition'] ? 'trait' : undefined);
    if (use !== undefined) used(use, key, name);
  };
  const visitText = (node: Node, path: readonly (string | number)[]): void => {
    const written = String(node.value).trim();
    const last = path.at(-1);
    const declared = idGroup(kind, path);
    const use = GROUPS[schemaAt(kind, root, reading, path)?.['x-names'] ?? ''];
    if (declared !== null) {
      const start = plainStart(node, written);
      add(declared, written, start ?? node.start, start === null ? node.end : start + written.length, true);
    } else if (use !== undefined) used(use, node, written);
    else if (last === 'text') placeholders(node);
    else if (kind === 'install' && path.includes('when')) {
      if (path.includes('done')) used('step', node, written);
      else if (path.includes('found')) used('found', node, written);
    }
  };
  const placeholders = (node: Node): void => {
    const { text } = document;
    for (
      let open = text.indexOf('{', node.start);
      open >= 0 && open < node.end;
      open = text.indexOf('{', open + 1)
    ) {
      const close = text.indexOf('}', open);
      const colon = text.indexOf(':', open);
      if (close < 0 || colon < 0 || colon > close || close > node.end) continue;
      const name = text.slice(colon + 1, close);
      const group = text.slice(open + 1, colon) === 'step' ? 'step' : 'item';
      parted(group, name, colon + 1);
    }
  };
  visit(root, []);
  return found.sort((a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end);
}

/** What a key of the map at a path declares; null where it declares nothing. */
function declaredBy(
  path: readonly (string | number)[],
  key: string,
): { group: NameGroup; name: string } | null {
  const [top, owner, sub] = path;
  if (typeof top !== 'string') return null;
  const group = DECLARING[top];
  if (path.length === 1) return group === undefined ? null : { group, name: key };
  if (path.length !== 3 || !SUBS.has(String(sub)) || !['parts', 'lines', 'kinds'].includes(top)) return null;
  return { group: top === 'kinds' ? 'kind' : 'item', name: `${owner}.${key}` };
}

/** What the text at a path names itself: rules, sections, steps and vehicles say it as a value. */
function idGroup(kind: string, path: readonly (string | number)[]): NameGroup | null {
  const last = path.at(-1);
  if (kind === 'vehicle') return path.length === 1 && last === 'name' ? 'vehicle' : null;
  if (kind === 'install' && last === 'else') return 'found';
  if (last !== 'id') return null;
  if (kind === 'rules') return path[0] === 'rules' && path.length === 3 ? 'rule' : null;
  if (kind !== 'install' || path[0] !== 'sections') return null;
  return path.length === 3 ? 'section' : path.length === 5 ? 'step' : null;
}

/** The names at an offset, the narrowest first. */
export function namesAt(names: readonly Name[], offset: number): Name[] {
  return names
    .filter(({ place }) => place.span.start <= offset && offset <= place.span.end)
    .sort((a, b) => a.place.span.end - a.place.span.start - (b.place.span.end - b.place.span.start));
}
