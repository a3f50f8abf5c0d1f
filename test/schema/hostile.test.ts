import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openDocument } from '../../server/src/schema/document';
import { readText } from '../../server/src/text/read';

const GUIDE = `kitproof: install/1
title: Upland
vehicle: moorhen.vehicle.yaml
covers: { lockers: [none, fitted] }
given: { front-wheel: off }
owes: [{ check: toe, after: 80 km }]
sections:
  - title: Front
    side: left
    steps:
      - id: lift
        text: Lift it.
        do:
          - { raise: vehicle, with: two-post-lift }
          - { unbolt: [front-wheel, rear-wheel], when: { lockers: fitted } }
          - { torque: a.b, to: 90 N·m, then: 90°, pattern: star, stages: [20 N·m, 90 N·m], new: nut }
          - { lower: front-axle, by: 120 mm }
          - { check: x, expect: { below: 10 mm }, else: worn }
          - { wait: 20 min, for: the sealant }
        time: { low: 4 min, likely: 6 min, high: 12 min }
        people: 2
        optional: true
        caution: { signal: warning, text: Mind it., covers: [spring-loaded] }
        waive: [{ rule: left-loose, because: So it is., by: A. Fitter, until: 2031-04-30 }]
`;
const VEHICLE = readFileSync('samples/moorhen.vehicle.yaml', 'utf8');

/** What a document says as text again, without what stands for the unreadable. */
function again(value: unknown): string {
  return JSON.stringify(value, (_, inner) =>
    Array.isArray(inner)
      ? inner.filter((item) => !(item !== null && typeof item === 'object' && item.invalid === true))
      : inner,
  );
}

/** The promises that hold for any text. */
function keepsPromises(text: string) {
  const open = openDocument('a', text);
  for (const finding of open.findings) {
    const { start, end } = finding.place.span;
    expect(start).toBeGreaterThanOrEqual(0);
    expect(end).toBeGreaterThanOrEqual(start);
    expect(end).toBeLessThanOrEqual(text.length);
    expect(finding.message).toMatch(/^[A-Z"0-9].*[.?]$/s);
  }
  const spots = open.findings.map(({ rule, place }) => `${rule} ${place.span.start} ${place.span.end}`);
  expect(new Set(spots).size).toBe(spots.length);
  // What is left is right: written out and read again, nothing is found in it.
  if (open.value !== null) expect(openDocument('a', again(open.value)).findings).toEqual([]);
  return open;
}

const WORDS = [
  '4',
  'yes',
  'null',
  '[]',
  '{}',
  '[[b]]',
  '{ a: { b: c } }',
  '"90"',
  'true',
  '- x',
  '90 mm',
  '*a',
  '2.5',
  "''",
];

describe('one mistake is one finding', () => {
  const scalars: { start: number; end: number }[] = [];
  const keys: { start: number; end: number }[] = [];
  const visit = (node: ReturnType<typeof readText>['root']): void => {
    if (node === null) return;
    if (node.kind === 'scalar') scalars.push(node);
    keys.push(...(node.keys ?? []));
    for (const item of node.items ?? []) visit(item);
  };
  visit(readText(GUIDE).root);
  const replaced = ({ start, end }: { start: number; end: number }, text: string) =>
    GUIDE.slice(0, start) + text + GUIDE.slice(end);

  test('the guide has none', () => expect(openDocument('a', GUIDE).findings).toEqual([]));

  test('a value replaced by another', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...scalars),
        fc.constantFrom(...WORDS.filter((word) => word !== '- x')),
        (scalar, word) => {
          const { findings } = keepsPromises(replaced(scalar, word));
          expect(findings.length).toBeLessThanOrEqual(1);
          const found = findings[0]?.place.span;
          // It stands on what was replaced, in it, or on its key, never far from it.
          if (found) expect(Math.abs(found.start - scalar.start)).toBeLessThan(40);
        },
      ),
      { numRuns: 1500 },
    );
  });

  test('a key misspelt', () => {
    for (const key of keys.filter((one) => one.start > 0)) {
      const written = GUIDE.slice(key.start, key.end);
      const { findings } = keepsPromises(replaced(key, `${written}q`));
      expect(findings.length, written).toBeLessThanOrEqual(1);
      if (findings[0]) expect(findings[0].place.span.start).toBe(key.start);
    }
  });

  test('a key taken away, and a fix brings back what a letter changed', () => {
    for (const key of keys.filter((one) => one.start > 0)) {
      const written = GUIDE.slice(key.start, key.end);
      const broken = replaced(key, written.length < 3 ? `${written}x` : written.slice(1));
      const open = keepsPromises(broken);
      expect(open.findings.length, written).toBeLessThanOrEqual(1);
      const edit = open.findings[0]?.fixes[0]?.edits[0];
      if (!edit) continue;
      const { start, end } = edit.place.span;
      expect(openDocument('a', broken.slice(0, start) + edit.text + broken.slice(end)).findings).toEqual([]);
    }
  });
});

test('any damage to a document keeps the promises', () => {
  for (const base of [GUIDE, VEHICLE]) {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.nat(base.length),
            fc.nat(12),
            fc.constantFrom(...WORDS, '', ':', '\n', '  ', '&a ', '<<: '),
          ),
          {
            minLength: 1,
            maxLength: 3,
          },
        ),
        (edits) => {
          let text = base;
          for (const [at, length, word] of edits) text = text.slice(0, at) + word + text.slice(at + length);
          keepsPromises(text);
        },
      ),
      { numRuns: 300 },
    );
  }
});

test('any structure under any key keeps the promises', () => {
  const json = fc.jsonValue({ maxDepth: 4 });
  const names =
    'title sections steps do parts joints kinds lines rules watch times when not torque to remove use wait expect covers'.split(
      ' ',
    );
  const tree = fc.letrec((tie) => ({
    value: fc.oneof({ depthSize: 'small' }, json, tie('map'), fc.array(tie('map'), { maxLength: 3 })),
    map: fc.dictionary(fc.constantFrom(...names), tie('value'), { maxKeys: 4 }),
  }));
  fc.assert(
    fc.property(
      fc.constantFrom('vehicle', 'kit', 'install', 'rules', 'times', 'config'),
      tree.map,
      (kind, body) => {
        keepsPromises(JSON.stringify({ kitproof: `${kind}/1`, ...(body as object) }));
      },
    ),
    { numRuns: 500 },
  );
});

describe('hostile sizes end, with a finding', () => {
  const within = (limit: number, text: string) => {
    const started = performance.now();
    const open = keepsPromises(text);
    expect(performance.now() - started).toBeLessThan(limit);
    return open;
  };
  test('very many unknown keys', () => {
    const keys = Array.from({ length: 20_000 }, (_, index) => `k${index}: 1`).join('\n');
    const { findings } = within(8000, `kitproof: vehicle/1\nname: M\n${keys}\n`);
    expect(findings).toHaveLength(201);
    expect(findings[200]!.rule).toBe('too-many-findings');
    expect(findings[200]!.message).toContain('19800 more');
  });
  test('very many bad operations', () => {
    const operations = Array.from({ length: 20_000 }, () => '          - unbotl: x').join('\n');
    const { findings } = within(
      10_000,
      `kitproof: install/1\ntitle: T\nsections:\n  - title: S\n    steps:\n      - do:\n${operations}\n`,
    );
    expect(findings).toHaveLength(201);
  });
  test('a very long word and a very deep condition', () => {
    within(
      2000,
      `kitproof: vehicle/1\nname: M\n${'x'.repeat(200_000)}: 1\nparts: { a: { reach: ${'y'.repeat(200_000)}, mass: ${'9'.repeat(100_000)} } }\n`,
    );
    const deep = `${'{ not: '.repeat(90)}{ a: b }${' }'.repeat(90)}`;
    expect(within(2000, `kitproof: vehicle/1\nname: M\nparts: { a: { when: ${deep} } }\n`).findings).toEqual(
      [],
    );
  });
});
