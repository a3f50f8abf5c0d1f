import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Ajv2020 from 'ajv/dist/2020';
import { expect, test } from 'vitest';
import { VERBS } from '../../server/src/schema/operations';

const schemas = readdirSync('schemas')
  .filter((name) => name.endsWith('.schema.json'))
  .map((name) => JSON.parse(readFileSync(join('schemas', name), 'utf8')));

const ALLOWED = new Set(
  '$schema $id $ref $defs title description type properties required additionalProperties items enum const examples'.split(
    ' ',
  ),
);

interface Found {
  readonly path: string;
  readonly schema: Record<string, unknown>;
  readonly named: boolean;
}

/** Every schema within a schema; `named` are those that a person meets: properties, values of maps, definitions. */
function* within(schema: Record<string, unknown>, path: string, named: boolean): Generator<Found> {
  yield { path, schema, named };
  for (const group of ['properties', '$defs']) {
    for (const [name, inner] of Object.entries(
      (schema[group] ?? {}) as Record<string, Record<string, unknown>>,
    )) {
      yield* within(inner, `${path}/${group}/${name}`, true);
    }
  }
  const { additionalProperties: values, items } = schema;
  if (values !== null && typeof values === 'object') {
    yield* within(values as Record<string, unknown>, `${path}/*`, true);
  }
  if (items) yield* within(items as Record<string, unknown>, `${path}/[]`, false);
}

const all = schemas.flatMap((schema) => [...within(schema, schema.$id, true)]);

test('every property has a description', () => {
  expect(all.length).toBeGreaterThan(500);
  for (const { path, schema, named } of all) {
    if (named && schema.$ref === undefined) expect(schema.description, path).toMatch(/^[A-Z`].*\.$/);
  }
});

test('every quantity says its unit and shows an example', () => {
  const units = {
    torque: /N·m/,
    length: /\bmm\b/,
    angle: /degrees/,
    mass: /kg/,
    pressure: /bar/,
    time: /\bmin\b/,
    volume: /\bl\b/,
  };
  for (const { path, schema, named } of all) {
    const dimension = schema['x-dimension'] as keyof typeof units | undefined;
    if (dimension === undefined || !named || !Object.hasOwn(units, dimension)) continue;
    expect(`${schema.description} ${JSON.stringify(schema.examples)}`, path).toMatch(units[dimension]);
  }
});

test('no alternatives, no open maps, only the keywords agreed on', () => {
  for (const { path, schema } of all) {
    for (const key of Object.keys(schema))
      expect(ALLOWED.has(key) || key.startsWith('x-'), `${path}: ${key}`).toBe(true);
    if (schema.properties) expect(schema.additionalProperties, path).toBe(false);
  }
});

test('the schemas are right as they stand, prose and all, in strict mode', () => {
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
  for (const key of new Set(all.flatMap(({ schema }) => Object.keys(schema)))) {
    if (key.startsWith('x-')) ajv.addKeyword(key);
  }
  for (const schema of schemas) ajv.addSchema(schema);
  let count = 0;
  for (const schema of schemas) {
    expect(ajv.getSchema(schema.$id)!({ kitproof: 4 })).toBe(false);
    for (const { path, schema: inner } of [...within(schema, '', true)]) {
      const example = (inner.examples as unknown[] | undefined)?.[0];
      if (example === undefined || inner['x-operation'] || schema.$id === 'rules.schema.json') continue;
      const valid = ajv.compile({
        ...inner,
        $id: `part-${count++}.schema.json`,
        ...(schema.$defs ? { $defs: schema.$defs } : {}),
      });
      expect(valid(example), `${schema.$id}${path}: ${JSON.stringify(example)}`).toBe(true);
    }
  }
});

test('the list of verbs and the definitions of verbs are one', () => {
  const install = schemas.find((schema) => schema.$id === 'install.schema.json');
  expect(install.$defs.verb.enum).toEqual(VERBS);
  const lists = all.flatMap(({ schema }) =>
    Array.isArray(schema.enum) && schema.enum.includes('unbolt') ? [schema.enum] : [],
  );
  for (const list of lists) expect(list).toEqual(VERBS);
});

test('the validators run where code may not be made of text, and need nothing else', () => {
  const validators = 'server/src/schema/generated/validators.mjs';
  const text = readFileSync(validators, 'utf8');
  expect(text).not.toMatch(/\brequire\(|\bimport\b|new Function|\beval\(/);
  const folder = mkdtempSync(join(tmpdir(), 'validators-'));
  try {
    const script = join(folder, 'run.mjs');
    writeFileSync(
      script,
      `import * as all from ${JSON.stringify(pathToFileURL(validators).href)};
      let forbidden = false;
      try { new Function('return 1')(); } catch { forbidden = true; }
      const good = { kitproof: 'vehicle/1', name: 'M', parts: { a: { sided: true, joints: { b: { bolts: 2 } } } } };
      const bad = { kitproof: 'vehicle/1', parts: { a: { sided: 'yes', joints: { b: { bolts: 2.5, x: 1 } } } } };
      const out = { forbidden, count: Object.keys(all).length, good: all.validateVehicle(good) };
      all.validateVehicle(bad);
      out.errors = all.validateVehicle.errors.map((e) => e.instancePath + ' ' + e.keyword);
      out.torque = all.validateTorque({ torque: 'a.b', to: '4 N·m' });
      console.log(JSON.stringify(out));`,
    );
    const result = JSON.parse(
      execFileSync(process.execPath, ['--disallow-code-generation-from-strings', script], {
        encoding: 'utf8',
      }),
    );
    expect(result).toEqual({
      forbidden: true,
      count: VERBS.length + 7,
      good: true,
      errors: [
        ' required',
        '/parts/a/sided type',
        '/parts/a/joints/b additionalProperties',
        '/parts/a/joints/b/bolts type',
      ],
      torque: true,
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('generating again changes nothing', async () => {
  // @ts-expect-error a script without types
  const { generate } = await import('../../server/scripts/generate.mjs');
  await generate();
  expect(await generate()).toBe(false);
});
