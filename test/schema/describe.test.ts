import { expect, test } from 'vitest';
import { pathAt, propertiesOf, schemaAt, verbDescriptions } from '../../server/src/schema/describe';
import type { DocumentKind } from '../../server/src/schema/document';
import { readText } from '../../server/src/text/read';

function at(kind: DocumentKind, text: string, word: string) {
  const reading = readText(text);
  const path = pathAt(reading.root!, reading, text.indexOf(word) + 1).map((step) => step.key);
  return { path, schema: schemaAt(kind, reading.root!, reading, path) };
}

const GUIDE = `kitproof: install/1
title: T
sections:
  - title: S
    steps:
      - do:
          - { torque: a.b, stages: [20 N·m], when: { lockers: fitted } }
      - do: { lower: front-axle, by: 120 mm }
        time: { each-side: { low: 1 min, likely: 2 min, high: 3 min } }
`;

test('a key of an operation is described by its verb', () => {
  expect(at('install', GUIDE, 'stages').path).toEqual(['sections', 0, 'steps', 0, 'do', 0, 'stages']);
  expect(at('install', GUIDE, 'stages').schema?.description).toContain('N·m');
  expect(at('install', GUIDE, 'by').path).toEqual(['sections', 0, 'steps', 1, 'do', 'by']);
  expect(at('install', GUIDE, 'by').schema?.description).toBe('How far it goes down, in mm.');
  expect(at('install', GUIDE, 'lower').schema?.description).toContain('Lower the vehicle');
});

test('places within values', () => {
  expect(at('install', GUIDE, '20 N').schema?.['x-dimension']).toBe('torque');
  expect(at('install', GUIDE, 'likely').schema?.description).toContain('likely');
  expect(at('install', GUIDE, 'when').schema?.['x-condition']).toBe(true);
  expect(at('install', GUIDE, 'lockers').schema).toBeNull();
  const rules =
    'kitproof: rules/1\npack: p\nrules: [{ bad: { vehicle: { parts: { a: { joints: { b: { hex: 8 mm } } } } } } }]\n';
  expect(at('rules', rules, 'hex').schema?.description).toContain('spanner');
});

test('what may stand, for completion', () => {
  const { schema } = at('install', GUIDE, 'title');
  expect(schema?.description).toBe('The title of the guide.');
  const step = schemaAt('install', readText(GUIDE).root!, readText(GUIDE), ['sections', 0, 'steps', 0])!;
  const names = propertiesOf(step, 'install').map(([name]) => name);
  expect(names).toContain('caution');
  for (const [, property] of propertiesOf(step, 'install')) expect(property.description).toBeTruthy();
  for (const { description } of verbDescriptions()) expect(description).toMatch(/\.$/);
});
