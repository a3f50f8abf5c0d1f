import { describe, expect, test } from 'vitest';
import type { DocumentKind } from '../../server/src/schema/document';
import { type OpenDocumentOf, openDocument } from '../../server/src/schema/document';
import { asList } from '../../server/src/schema/lists';
import { placesOf, qualifierOf, targetsOf, verbOf } from '../../server/src/schema/operations';
import { dedent } from '../support/fixture';

function open<Kind extends DocumentKind>(kind: Kind, text: string, placeKeys: readonly string[] = []) {
  const document = openDocument(`a.${kind}.yaml`, dedent(text), { placeKeys: new Set(placeKeys) });
  expect(document.kind).toBe(kind);
  return document as unknown as OpenDocumentOf<Kind>;
}

describe('what is left when something is wrong', () => {
  const document = open(
    'install',
    `
    kitproof: install/1
    titel: Upland
    sections:
      - title: Front
        steps:
          - text: Strip it.
            people: many
            do:
              - unbolt: front-wheel
              - unbotl: rear-wheel
              - { remove: front-shock.lower-bolt, wiht: bar }
          - Just words
          - text: Fit it.
            do: { fit: front-coil }
    `,
  );
  const steps = document.value.sections[0]!.steps;

  test('a bad operation leaves a placeholder, and the others keep their places', () => {
    expect(steps[0]!.do!.map(verbOf)).toEqual(['unbolt', null, 'remove']);
    expect(steps[0]!.do![1]).toEqual({ invalid: true });
    expect(document.lost.get(steps[0]!)).toEqual(new Set(['people', 'do']));
  });
  test('the placeholder still knows where it is written', () => {
    expect(document.at.header(steps[0]!.do![1]!)).toEqual(document.findings[2]!.place);
  });
  test('a key that was probably meant is lost, since its absence is an echo', () => {
    expect(document.lost.get(steps[0]!.do![2]!)).toEqual(new Set(['with', 'wiht']));
    expect(steps[0]!.do![2]).toEqual({ remove: 'front-shock.lower-bolt' });
  });
  test('a step that is none leaves an empty one', () => {
    expect(steps).toHaveLength(3);
    expect(steps[1]).toEqual({});
    expect(document.lost.get(document.value.sections[0]!)).toEqual(new Set(['steps']));
  });
  test('one operation may stand without a list', () => {
    expect(steps[2]!.do).toEqual([{ fit: 'front-coil' }]);
    const place = document.at.value(steps[2]!.do!, 0);
    expect(place).toEqual(document.at.object(steps[2]!.do![0]!));
  });
  test('what must be there is there', () => {
    expect(document.value.title).toBe('');
    expect(document.findings.map((finding) => finding.rule)).toEqual([
      'unknown-key',
      'wrong-type',
      'unknown-verb',
      'unknown-key',
      'wrong-type',
    ]);
  });
});

test('a dropped element is closed up, and the others know where they are written', () => {
  const text = 'kitproof: vehicle/1\nname: M\nparts: { a: { joins: [frame, [x], front-axle] } }\n';
  const { value, at, lost } = open('vehicle', text);
  const part = value.parts!.a!;
  expect(part.joins).toEqual(['frame', 'front-axle']);
  expect(lost.get(part)).toEqual(new Set(['joins']));
  expect(at.writtenIndex(part.joins!, 1)).toBe(2);
  const { span } = at.value(part.joins!, 1);
  expect(text.slice(span.start, span.end)).toBe('front-axle');
});

test('a thing that lacks what it must have goes, and what is around it stays', () => {
  const { value, lost } = open(
    'install',
    `
    kitproof: install/1
    title: T
    owes: [{ after: 80 km }, { check: toe }]
    sections:
      - { title: S, steps: [{ text: A, caution: { signal: dagner, text: Mind it. } }] }
    `,
  );
  expect(value.owes).toEqual([{ check: 'toe' }]);
  const step = value.sections[0]!.steps[0]!;
  expect(step).toEqual({ text: 'A' });
  expect(lost.get(step)).toEqual(new Set(['caution']));
});

test('less of a condition would say something else, so all of it goes', () => {
  const { value, lost } = open(
    'vehicle',
    'kitproof: vehicle/1\nname: M\nparts: { a: { when: { lockers: fitted, lift: {} } } }\n',
  );
  expect(value.parts!.a).toEqual({});
  expect(lost.get(value.parts!.a!)).toEqual(new Set(['when']));
});

test('what stood in a piece that could not be read is not missing', () => {
  const { findings } = open(
    'install',
    'kitproof: install/1\ntitle: T\nsections:\n  - steps:\n      - { text: "A\n',
  );
  expect(findings.map((finding) => finding.rule)).toEqual(['yaml-syntax']);
});

test('names that every object has are names like others', () => {
  const { value, findings } = open(
    'vehicle',
    'kitproof: vehicle/1\nname: M\nparts: { constructor: { kind: shock }, __proto__: { kind: wheel }, toString: {} }\n',
  );
  expect(findings).toEqual([]);
  expect(Object.keys(value.parts!)).toEqual(['constructor', '__proto__', 'toString']);
  expect(value.parts!.valueOf).toBeUndefined();
  const odd = openDocument('a', 'kitproof: vehicle/1\nname: M\nconstructor: 4\ntoString: 4\n');
  expect(odd.findings.map((finding) => finding.rule)).toEqual(['unknown-key', 'unknown-key']);
});

test('numbers taken as texts stand as they are written', () => {
  const text = 'kitproof: kit/1\nname: 50\nhardware: { bolt: { class: 8.80, for: [a, 7] } }\n';
  const { value } = open('kit', text);
  expect(value.name).toBe('50');
  expect(value.hardware!.bolt).toEqual({ class: '8.80', for: ['a', '7'] });
});

test('what readers ask of an operation', () => {
  const { value } = open(
    'install',
    `
    kitproof: install/1
    title: T
    sections:
      - title: S
        steps:
          - station: [front, rear]
            do:
              - { unbolt: [a, b], station: front, with: bar }
              - wait: 20 min
              - use: { section: Front }
    `,
    ['station'],
  );
  const step = value.sections[0]!.steps[0]!;
  const [unbolt, wait, use] = step.do!;
  expect(targetsOf(unbolt!)).toEqual(['a', 'b']);
  expect(targetsOf(wait!)).toEqual(['20 min']);
  expect(targetsOf(use!)).toEqual([]);
  expect(qualifierOf(unbolt!, 'with')).toBe('bar');
  expect(qualifierOf(unbolt!, 'toString')).toBeUndefined();
  expect({ ...placesOf(unbolt!, new Set(['station'])) }).toEqual({ station: ['front'] });
  expect({ ...placesOf(step, new Set(['station'])) }).toEqual({ station: ['front', 'rear'] });
  expect([asList(undefined), asList('a'), asList(['a'])]).toEqual([[], ['a'], ['a']]);
});
