/**
 * Makes `server/src/schema/generated/` from `schemas/*.schema.json`: the TypeScript types, the precompiled validators
 * and the tables that hover, completion and the checks of annotations read. Does nothing when the schemas are
 * unchanged. Run as `node server/scripts/generate.mjs`, or call `generate()`.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const schemaFolder = join(root, 'schemas');
const outFolder = join(root, 'server', 'src', 'schema', 'generated');
const OUTPUTS = ['types.ts', 'validators.mjs', 'validators.d.mts', 'tables.ts'];

/** Annotations of this project that validators carry along and do not judge. */
const ANNOTATIONS = [
  'x-dimension',
  'x-words',
  'x-names',
  'x-date',
  'x-tyre',
  'x-least',
  'x-values',
  'x-condition',
  'x-operation',
  'x-step-or-operation',
  'x-required-map',
  'x-ascending',
  'x-required-unless',
  'x-default',
  'x-placeholder',
];

/** Generates what is out of date. Returns true when files were written. */
export async function generate() {
  const names = readdirSync(schemaFolder)
    .filter((name) => name.endsWith('.schema.json'))
    .sort();
  const texts = names.map((name) => readFileSync(join(schemaFolder, name), 'utf8'));
  const hash = createHash('sha256');
  for (const text of [readFileSync(fileURLToPath(import.meta.url), 'utf8'), ...texts])
    hash.update(text).update('\0');
  const stamp = hash.digest('hex');
  const stampFile = join(outFolder, 'stamp.txt');
  const fresh =
    OUTPUTS.every((name) => existsSync(join(outFolder, name))) &&
    existsSync(stampFile) &&
    readFileSync(stampFile, 'utf8') === stamp;
  if (fresh) return false;

  const schemas = texts.map((text) => JSON.parse(text));
  mkdirSync(outFolder, { recursive: true });
  write('types.ts', await typesOf(schemas));
  write('validators.mjs', await validatorsOf(schemas));
  write('validators.d.mts', validatorTypesOf(schemas));
  write('tables.ts', tablesOf(schemas));
  write('stamp.txt', stamp);
  return true;
}

/** Replaces a file in one move, so that a process that reads meanwhile sees the old one or the new one. */
function write(name, text) {
  const target = join(outFolder, name);
  const draft = `${target}.${process.pid}.draft`;
  writeFileSync(draft, text);
  renameSync(draft, target);
}

const documentOf = (schema) => schema.$id.replace('.schema.json', '');

/** `vehicle.schema.json#/$defs/part` → `Part`; verbs become `TorqueOperation`. */
function typeName(reference) {
  const name = reference.slice(reference.lastIndexOf('/') + 1);
  const words = name.startsWith('verb-') ? `${name.slice(5)}-operation` : name;
  return words
    .split('-')
    .map((word) => word[0].toUpperCase() + word.slice(1))
    .join('');
}

/** True for the definition of an operation's verb. */
const isVerb = (name) => name.startsWith('verb-');

/** The types: all files in one, so that a definition used by several files is one type. */
async function typesOf(schemas) {
  const { compile } = await import('json-schema-to-typescript');
  const definitions = {};
  for (const schema of schemas) {
    const { $defs = {}, $id, $schema, ...document } = schema;
    definitions[schema.title] = typed(document);
    for (const [name, definition] of Object.entries($defs)) {
      const type = typeName(name);
      if (definitions[type]) throw new Error(`two definitions would be called ${type}`);
      definitions[type] = typed(definition);
    }
  }
  const text = await compile({ definitions }, 'Documents', {
    additionalProperties: false,
    unreachableDefinitions: true,
    bannerComment: '/** Made from the files in `schemas/` by `server/scripts/generate.mjs`. */',
    format: false,
    ignoreMinAndMaxItems: true,
  });
  const verbs = schemas
    .flatMap((schema) => Object.keys(schema.$defs ?? {}))
    .filter(isVerb)
    .map((name) => `  | ${typeName(name)}`);
  return `${text
    .replace(/export interface Documents \{[^}]*\}\n/, '')
    .replace(
      / \*\s*\n \* This interface was referenced by `Documents`'s JSON-Schema\s*\n \* via the `definition` "\w+"\.\n/g,
      '',
    )
    .replace(
      / \* This interface was referenced by `Documents`'s JSON-Schema\s*\n \* via the `definition` "\w+"\.\n/g,
      '',
    )
    .trimEnd()}

/** One operation of a guide, whichever its verb. */
export type Operation =
${verbs.join('\n')};

/** Stands in a list of operations for one that could not be read, so that the others keep their places. */
export interface InvalidOperation {
  invalid: true;
}

/** Bounds of a figure, each with its unit. */
export interface Bounds {
  'at-least'?: string;
  above?: string;
  'at-most'?: string;
  below?: string;
}

/** Every key must hold. Under \`not\` stands a condition. */
export interface ConditionMap {
  not?: Condition;
  [variable: string]: string | string[] | Bounds | Condition | undefined;
}
`;
}

/** A schema as the maker of types wants it: two types become a union, hand-written types stand where they belong. */
function typed(schema) {
  if (Array.isArray(schema)) return schema.map(typed);
  if (schema === null || typeof schema !== 'object') return schema;
  if (schema['x-condition'])
    return { description: schema.description, tsType: 'ConditionMap | ConditionMap[]' };
  if (schema['x-step-or-operation']) return { tsType: '(Operation | InvalidOperation | Step)' };
  if (schema['x-operation'] && schema.type === 'object') return { tsType: '(Operation | InvalidOperation)' };
  if (schema['x-operation']) {
    return { description: schema.description, tsType: '(Operation | InvalidOperation)[]' };
  }
  if (schema.$ref) return { description: schema.description, tsType: typeName(schema.$ref) };
  const {
    type,
    properties,
    required,
    additionalProperties,
    items,
    description,
    enum: values,
    ...rest
  } = schema;
  const one = (kind) => {
    const made = { type: kind };
    if (values && kind === 'string') made.enum = values;
    if (rest.const !== undefined) made.const = rest.const;
    if (kind === 'array' && items) made.items = typed(items);
    if (kind === 'object') {
      if (properties) made.properties = mapValues(properties, typed);
      if (required) made.required = required;
      made.additionalProperties = additionalProperties === undefined ? false : typed(additionalProperties);
    }
    return made;
  };
  if (!Array.isArray(type)) return { description, ...one(type) };
  return { description, anyOf: type.map(one) };
}

const mapValues = (object, change) =>
  Object.fromEntries(Object.entries(object).map(([key, value]) => [key, change(value)]));

/** The validators: one per document and one per verb, as a module that needs nothing else. */
async function validatorsOf(schemas) {
  const { default: ajvModule } = await import('ajv/dist/2020.js');
  const { default: standaloneModule } = await import('ajv/dist/standalone/index.js');
  const Ajv2020 = ajvModule.default ?? ajvModule;
  const standalone = standaloneModule.default ?? standaloneModule;
  const ajv = new Ajv2020({
    strict: true,
    allowUnionTypes: true,
    allErrors: true,
    inlineRefs: false,
    messages: false,
    code: { source: true, esm: true, lines: false },
  });
  for (const annotation of ANNOTATIONS) ajv.addKeyword(annotation);
  for (const schema of schemas) ajv.addSchema(withoutProse(schema));
  const exported = {};
  for (const schema of schemas) {
    exported[exportName(documentOf(schema))] = schema.$id;
    for (const name of Object.keys(schema.$defs ?? {})) {
      if (isVerb(name) || name === 'step') exported[exportName(name)] = `${schema.$id}#/$defs/${name}`;
    }
  }
  const code = standalone(ajv, exported);
  // Two small helpers of ajv may be asked for by `require`; the code must stand by itself.
  const helpers = new Set([...code.matchAll(/require\("([^"]+)"\)/g)].map((match) => match[1]));
  let text = code;
  for (const helper of helpers) {
    if (helper !== 'ajv/dist/runtime/equal' && helper !== 'ajv/dist/runtime/ucs2length') {
      throw new Error(`a validator asks for ${helper}`);
    }
    text = await bundled(text);
  }
  return `// Made from the files in \`schemas/\` by \`server/scripts/generate.mjs\`.\n${text}\n`;
}

/** A schema without what only people read, which would be carried along in the validators. */
function withoutProse(schema) {
  if (Array.isArray(schema)) return schema.map(withoutProse);
  if (schema === null || typeof schema !== 'object') return schema;
  const { description, examples, ...rest } = schema;
  // A property may itself be called `description`; then it is a schema, not a text.
  const kept = typeof description === 'object' ? { ...rest, description } : rest;
  if (typeof examples === 'object' && !Array.isArray(examples)) kept.examples = examples;
  return mapValues(kept, withoutProse);
}

/** The code with what it requires put in. */
async function bundled(text) {
  const { build } = await import('esbuild');
  const result = await build({
    stdin: { contents: text, resolveDir: root, loader: 'js' },
    bundle: true,
    format: 'esm',
    platform: 'neutral',
    mainFields: ['main'],
    write: false,
  });
  return result.outputFiles[0].text;
}

function exportName(name) {
  return `validate${typeName(name).replace(/Operation$/, '')}`;
}

function validatorTypesOf(schemas) {
  const names = schemas.flatMap((schema) => [
    documentOf(schema),
    ...Object.keys(schema.$defs ?? {}).filter((name) => isVerb(name) || name === 'step'),
  ]);
  const lines = names.map((name) => `export const ${exportName(name)}: Validator;`);
  return `// Made from the files in \`schemas/\` by \`server/scripts/generate.mjs\`.
export interface ValidatorError {
  instancePath: string;
  keyword: string;
  params: Record<string, unknown>;
}
export interface Validator {
  (value: unknown): boolean;
  errors?: ValidatorError[] | null;
}
${lines.join('\n')}
`;
}

/** The schemas as plain data, and the validators by the names that documents use. */
function tablesOf(schemas) {
  const imports = [];
  const documents = [];
  const verbs = [];
  for (const schema of schemas) {
    imports.push(exportName(documentOf(schema)));
    documents.push(`  ${documentOf(schema)}: ${exportName(documentOf(schema))},`);
    for (const name of Object.keys(schema.$defs ?? {})) {
      if (isVerb(name)) {
        imports.push(exportName(name));
        verbs.push(`  '${name.slice(5)}': ${exportName(name)},`);
      }
    }
  }
  const bodies = schemas.map((schema) => `  '${schema.$id}': ${JSON.stringify(schema)},`);
  return `// Made from the files in \`schemas/\` by \`server/scripts/generate.mjs\`.
import { ${imports.join(', ')}, validateStep } from './validators.mjs';

/** A validator per document. */
export const documentValidators = {
${documents.join('\n')}
};

/** A validator per verb. */
export const verbValidators = {
${verbs.join('\n')}
};

export const stepValidator = validateStep;

/** The schemas, by file name. */
export const schemaFiles: Readonly<Record<string, unknown>> = {
${bodies.join('\n')}
};
`;
}

if (process.argv[1] && fileURLToPath(import.meta.url) === process.argv[1]) {
  const written = await generate();
  console.log(
    written ? 'Types and validators made from the schemas.' : 'Types and validators are up to date.',
  );
}
