import { schemaFiles } from './generated/tables';

/** The part of JSON Schema that the files in `schemas/` use, with this project's annotations. */
export interface Schema {
  readonly $ref?: string;
  readonly type?: SchemaType | readonly SchemaType[];
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly examples?: readonly unknown[];
  readonly $defs?: Readonly<Record<string, Schema>>;
  /** The dimension of the quantity that a text must be; `any` for whichever. */
  readonly 'x-dimension'?: string;
  /** Words that may stand instead of a quantity. */
  readonly 'x-words'?: readonly string[];
  /** The only texts allowed, where a list or a map may stand too. */
  readonly 'x-values'?: readonly string[];
  /** What a text names: a part, a joint, a kind… For a map: what its keys name. */
  readonly 'x-names'?: string;
  readonly 'x-date'?: boolean;
  /** A text that must be the code of a tyre. */
  readonly 'x-tyre'?: boolean;
  /** The smallest whole number allowed. */
  readonly 'x-least'?: number;
  readonly 'x-condition'?: boolean;
  readonly 'x-operation'?: boolean;
  readonly 'x-step-or-operation'?: boolean;
  /** Keys that a map must have where a map stands, unless it has the key `x-required-unless`. */
  readonly 'x-required-map'?: readonly string[];
  readonly 'x-required-unless'?: string;
  /** Keys of a map whose figures must not go down in this order. */
  readonly 'x-ascending'?: readonly string[];
  /** What stands for a required value that is missing or wrong; without it the thing around it is dropped. */
  readonly 'x-default'?: unknown;
  /** What stands in a list for a thing that could not be read. */
  readonly 'x-placeholder'?: unknown;
}

export type SchemaType = 'string' | 'number' | 'integer' | 'boolean' | 'object' | 'array' | 'null';

/** A schema with its references followed, and the file whose `#` it speaks of. */
export interface Spot {
  readonly schema: Schema;
  readonly file: string;
}

const NO_PROPERTIES: Readonly<Record<string, Schema>> = {};

/** The schema of a whole document. */
export function documentSpot(kind: string): Spot {
  const file = `${kind}.schema.json`;
  return { schema: schemaFiles[file] as Schema, file };
}

const GUIDE = documentSpot('install');
const GUIDE_SPOTS: ReadonlyMap<string, Spot> = new Map(
  Object.entries(GUIDE.schema.$defs ?? {}).map(([name, schema]) => [name, { schema, file: GUIDE.file }]),
);

/** A definition of the guide's schema, such as `step` or `verb-torque`. */
export function guideSpot(definition: string): Spot {
  const spot = GUIDE_SPOTS.get(definition);
  if (spot === undefined) throw new Error(`the guide's schema does not define ${definition}`);
  return spot;
}

/** Follows a reference; what is said beside it wins. */
export function openSpot(schema: Schema, file: string): Spot {
  if (schema.$ref === undefined) return { schema, file };
  const cut = schema.$ref.indexOf('#');
  const target = cut === 0 ? file : schema.$ref.slice(0, cut);
  const name = schema.$ref.slice(schema.$ref.lastIndexOf('/') + 1);
  const found = (schemaFiles[target] as Schema).$defs?.[name];
  if (found === undefined) throw new Error(`no definition for ${schema.$ref}`);
  const { $ref, ...beside } = schema;
  return { schema: { ...found, ...beside }, file: target };
}

/** The schema of a key of a map or an element of a list; null where nothing is said of it. */
export function childSpot(spot: Spot, key: string | number, open = openSpot): Spot | null {
  const { schema, file } = spot;
  if (typeof key === 'number') return schema.items ? open(schema.items, file) : null;
  const property = ownProperty(schema.properties ?? NO_PROPERTIES, key);
  if (property) return open(property, file);
  return typeof schema.additionalProperties === 'object' ? open(schema.additionalProperties, file) : null;
}

/** Keys come from documents, so `constructor` must not find what every object has. */
function ownProperty(properties: Readonly<Record<string, Schema>>, key: string): Schema | undefined {
  return Object.hasOwn(properties, key) ? properties[key] : undefined;
}

/** The types a schema allows. */
export function typesOf(schema: Schema): readonly SchemaType[] {
  if (schema.type === undefined) return [];
  return typeof schema.type === 'string' ? [schema.type] : schema.type;
}
