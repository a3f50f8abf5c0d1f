import { find, follow, keyName } from '../text/access';
import type { Node, Reading } from '../text/tree';
import { DOCUMENT_KINDS, type DocumentKind } from './document';
import { VERBS } from './operations';
import { childSpot, documentSpot, guideSpot, type Schema, type Spot } from './spots';

/** What the schemas say of a place in a document: for hover and completion. */

/** The nodes from the root down to an offset: each map's key or list's index, and the value under it. */
export interface PathStep {
  readonly key: string | number;
  /** The key's node; null in lists. */
  readonly keyNode: Node | null;
  readonly value: Node;
}

/** The schema that governs a node reached by a path; null where none does. Operations are judged by their verb. */
export function schemaAt(
  kind: DocumentKind,
  root: Node,
  reading: Reading,
  path: readonly (string | number)[],
): Schema | null {
  let spot: Spot | null = documentSpot(kind);
  let node: Node | null = follow(root, reading);
  for (const key of path) {
    if (spot === null) return null;
    const current: Spot = narrowed(spot, node, reading);
    // `do` may hold one operation without a list around it.
    const list = current.schema['x-operation'] && current.schema.items && typeof key === 'string';
    const holder = list ? narrowed(childSpot(current, 0)!, node, reading) : current;
    spot = childSpot(holder, key);
    node = node === null ? null : childNode(node, key, reading);
  }
  return spot === null ? null : narrowed(spot, node, reading).schema;
}

/** The definition of an operation's verb in place of "some operation". */
function narrowed(spot: Spot, node: Node | null, reading: Reading): Spot {
  const { schema } = spot;
  if ((!schema['x-operation'] || schema.items) && !schema['x-step-or-operation']) return spot;
  if (node === null || node.kind !== 'map') return spot;
  const names = (node.keys ?? []).map((key) => keyName(key, reading));
  if (schema['x-step-or-operation'] && names.includes('do')) return guideSpot('step');
  const verb = VERBS.find((name) => names.includes(name));
  return verb === undefined ? spot : guideSpot(`verb-${verb}`);
}

function childNode(node: Node, key: string | number, reading: Reading): Node | null {
  if (typeof key === 'string') return find(node, key, reading)?.value ?? null;
  const item = node.kind === 'seq' ? node.items?.[key] : undefined;
  return item ? follow(item, reading) : null;
}

/** The path to the innermost key or value that holds an offset. */
export function pathAt(root: Node, reading: Reading, offset: number): readonly PathStep[] {
  const path: PathStep[] = [];
  let node = root;
  for (;;) {
    const { items, keys } = node;
    const index = (items ?? []).findIndex((item, at) => {
      const start = keys?.[at]?.start ?? item.start;
      return start <= offset && offset <= Math.max(item.end, keys?.[at]?.end ?? 0);
    });
    const value = items?.[index];
    if (!value) return path;
    const keyNode = keys?.[index] ?? null;
    const key = keyNode === null ? index : keyName(keyNode, reading);
    if (key === null) return path;
    path.push({ key, keyNode, value });
    node = value;
  }
}

/** The keys that a schema allows, each with its schema, for completion. */
export function propertiesOf(schema: Schema, kind: DocumentKind): readonly (readonly [string, Schema])[] {
  const spot: Spot = { schema, file: `${kind}.schema.json` };
  return Object.keys(schema.properties ?? {}).map((name) => [name, childSpot(spot, name)!.schema] as const);
}

/** Every verb with what it does, for completion in an operation. */
export function verbDescriptions(): readonly { readonly verb: string; readonly description: string }[] {
  return VERBS.map((verb) => ({ verb, description: guideSpot(`verb-${verb}`).schema.description ?? '' }));
}

/** What may stand in an operation of a verb: the verb itself and its qualifiers; nothing where there is no such verb. */
export function propertiesOfVerb(verb: string): readonly (readonly [string, Schema])[] {
  return (VERBS as readonly string[]).includes(verb)
    ? propertiesOf(guideSpot(`verb-${verb}`).schema, 'install')
    : [];
}

/** What a vehicle may say of a joint under a key; nothing for an unknown key. */
export function propertyOfJoint(name: string): Schema | undefined {
  const { properties = {} } = documentSpot('vehicle').schema.$defs!.joint!;
  return Object.hasOwn(properties, name) ? properties[name] : undefined;
}

/** What may stand in a duty that a guide hands over. */
export const propertiesOfDuty = (): readonly (readonly [string, Schema])[] =>
  propertiesOf(guideSpot('duty').schema, 'install');

/** The first lines that documents begin with. */
export const FIRST_KEYS: readonly string[] = DOCUMENT_KINDS.map((kind) => `${kind}/1`);
