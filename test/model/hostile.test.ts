import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Body, bodyOf, EMPTY, mergeBodies } from '../../server/src/model/body';
import { NameGuesser } from '../../server/src/model/nearest';
import { Cursor } from '../../server/src/model/source';
import { openDocument } from '../../server/src/schema/document';
import { parseFixture } from '../support/fixture';
import { bind, checkProject, partOf } from './support';
import { UPLAND } from './upland';

const lines = (count: number, line: (index: number) => string) =>
  Array.from({ length: count }, (_, index) => line(index)).join('\n');
const guide = (vehicle: string, body: string, head = '') => [
  { name: 'v.vehicle.yaml', text: `kitproof: vehicle/1\nname: V\n${vehicle}` },
  {
    name: 'g.install.yaml',
    text: `kitproof: install/1\ntitle: T\nvehicle: v.vehicle.yaml\n${head}\nsections:\n  - title: S\n    steps:\n${body}`,
  },
];

describe('hostile input', () => {
  it('a chain of 10,000 likes, and one of 1,000 kinds', () => {
    const files = guide(
      `kinds:\n${lines(1_000, (i) => `  k${i}: { kind: k${i + 1} }`)}\n  k1000: {}\nparts:\n${lines(10_000, (i) => `  p${i}: { like: p${i + 1} }`)}\n  p10000: { mass: 3 kg, kind: k0 }`,
      '      - do: [{ unbolt: p0 }]',
    );
    expect(partOf(bind(files).model, 'p0').mass).toBe(3);
    const found = new Set(checkProject(files).map((finding) => finding.rule));
    expect([...found].filter((rule) => rule !== 'too-deep')).toEqual([]);
  });

  it('a chain of likes that grows at every link', () => {
    const files = guide(
      `parts:\n${lines(3_000, (i) => `  p${i}: { like: p${i - 1}, joints: { j${i}: {} } }`)}`,
      '      - do: [{ unbolt: p0 }]',
    );
    expect(bind(files).model.things.size).toBe(3_000);
  });

  it('circles everywhere', () => {
    const circle = (key: string) =>
      lines(
        2_000,
        (i) =>
          `  ${key}-${i}: { ${key}: ${key === 'joins' || key === 'limited-by' ? `[${key}-${(i + 1) % 2_000}]` : `${key}-${(i + 1) % 2_000}`} }`,
      );
    const files = guide(
      `parts:\n${['like', 'inside', 'under', 'behind', 'joins', 'limited-by'].map(circle).join('\n')}`,
      '      - do: [{ unbolt: like-0 }]',
    );
    const rules = checkProject(files).map((finding) => finding.rule);
    expect(rules.filter((rule) => rule === 'circular-reference')).toHaveLength(4);
    const kit = {
      name: 'k.kit.yaml',
      text: `kitproof: kit/1\nname: K\nparts:\n${lines(2_000, (i) => `  r${i}: { replaces: [r${(i + 1) % 2_000}, r${(i + 7) % 2_000}, r${i}] }`)}`,
    };
    expect(() =>
      bind([
        kit,
        { name: 'g.install.yaml', text: 'kitproof: install/1\ntitle: T\nkit: k.kit.yaml\nsections: []' },
      ]),
    ).not.toThrow();
    expect(checkProject([kit]).every((finding) => finding.rule === 'circular-reference')).toBe(true);
  });

  it('1,000 traits, each asked for', () => {
    const files = guide(
      `traits:\n${lines(1_000, (i) => `  t${i}: [a, b]`)}\nparts: { p: {} }`,
      lines(1_000, (i) => `      - { when: { t${i}: a, t${(i * 7 + 1) % 1_000}: b }, do: [{ unbolt: p }] }`),
    );
    const { model } = bind(files);
    expect(model.findings).toEqual([]);
    expect(model.world.variables).toHaveLength(1_000);
  });

  it('thousands of unknown names beside thousands of known ones', () => {
    const files = guide(
      `parts:\n${lines(5_000, (i) => `  part-abcdef${i}: {}`)}`,
      lines(5_000, (i) => `      - do: [{ unbolt: part-abcedf${i} }]`),
    );
    const { model } = bind(files);
    expect(model.steps).toHaveLength(5_000);
  });

  it('uses that multiply', () => {
    const text = `kitproof: install/1\ntitle: T\nsections:\n${lines(
      12,
      (i) =>
        `  - { title: s${i}, steps: [{ do: [${Array(10)
          .fill(`{ use: s${i + 1} }`)
          .join(', ')}, { unbolt: wheel }] }] }`,
    )}\n  - { title: s12, steps: [{ do: [{ unbolt: wheel }] }] }`;
    const { model } = bind([{ name: 'g.install.yaml', text }]);
    expect(model.findings.length).toBeGreaterThan(0);
    expect(model.findings.every((finding) => finding.rule === 'circular-use')).toBe(true);
    expect(model.steps.length).toBeLessThan(60_000);
  });

  it('deep and odd conditions, names that objects have, braces in texts', () => {
    const deep = `${'{ not: '.repeat(90)}{ t: a }${' }'.repeat(90)}`;
    const files = guide(
      'traits: { t: [a, b] }\nparts: { constructor: { joints: { toString: {} } }, __proto__: {} }',
      `      - { when: ${deep}, do: [{ loosen: constructor.toString }, { unbolt: __proto__ }, { unbolt: hasOwnProperty }], text: "${'{'.repeat(5_000)}{part:${'}'.repeat(5_000)}" }`,
    );
    expect(() => checkProject(files)).not.toThrow();
    expect(partOf(bind(files).model, 'constructor').joints.has('toString')).toBe(true);
  });

  it('half-typed documents: every cut of a project binds', () => {
    const { files } = parseFixture(UPLAND);
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: files.length - 1 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (which, from, length) => {
          const cut = files.map((file, index) => {
            if (index !== which) return file;
            const start = Math.floor(from * file.text.length);
            const end = start + Math.floor(length * 60);
            return { name: file.name, text: file.text.slice(0, start) + file.text.slice(end) };
          });
          const guideFile = cut.at(-1)!;
          for (const finding of checkProject(
            cut.filter((file) => openDocument(file.name, file.text).kind !== null),
          )) {
            expect(finding.place.span.start).toBeLessThanOrEqual(finding.place.span.end);
            expect(finding.message).not.toContain('undefined');
          }
          expect(guideFile).toBeDefined();
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe('laws', () => {
  const text = fc.constantFrom('a', 'b', 'c');
  const value: fc.Arbitrary<unknown> = fc.letrec((tie) => ({
    map: fc.dictionary(
      text,
      fc.oneof({ depthSize: 'small' }, text, fc.array(text, { maxLength: 2 }), tie('map')),
      { maxKeys: 3 },
    ),
  })).map;
  const body = (map: unknown): Body => {
    const document = openDocument('x.vehicle.yaml', `kitproof: vehicle/1\nname: x\n`);
    return bodyOf(Cursor.of({ ...document, value: map } as typeof document));
  };
  /** What a body says, without where. */
  const plain = (one: Body): unknown =>
    one.fields === null
      ? one.cursor?.value
      : Object.fromEntries([...one.fields].map(([key, field]) => [key, plain(field)]));

  it('merging is associative where nothing changes from a map to a value, and saying nothing changes nothing', () => {
    // Kinds of parts never turn a map into a scalar: the schema sees to it. So keys are of one sort here.
    const sorted = fc
      .record({ a: fc.option(text), b: fc.option(fc.array(text)), c: fc.option(fc.dictionary(text, text)) })
      .map((one) => Object.fromEntries(Object.entries(one).filter(([, field]) => field !== null)));
    fc.assert(
      fc.property(sorted, sorted, sorted, (x, y, z) => {
        const [a, b, c] = [body(x), body(y), body(z)];
        expect(plain(mergeBodies(mergeBodies(a, b), c))).toEqual(plain(mergeBodies(a, mergeBodies(b, c))));
        expect(plain(mergeBodies(EMPTY, a))).toEqual(plain(a));
        expect(plain(mergeBodies(a, EMPTY))).toEqual(plain(a));
        expect(plain(mergeBodies(a, a))).toEqual(plain(a));
      }),
    );
    fc.assert(
      fc.property(value, value, (x, y) => {
        // What is said last is said.
        const merged = plain(mergeBodies(body(x), body(y))) as Record<string, unknown>;
        for (const [key, said] of Object.entries(y as Record<string, unknown>))
          if (typeof said === 'string') expect(merged[key]).toBe(said);
      }),
    );
  });

  it('a near name is a known name, within two letters or the same words in another order', () => {
    const name = fc
      .array(fc.constantFrom('front', 'rear', 'shock', 'arm', 'coil', 'bolt', '1', '2'), {
        minLength: 1,
        maxLength: 4,
      })
      .map((words) => words.join('-'));
    fc.assert(
      fc.property(fc.array(name, { maxLength: 8 }), name, (known, written) => {
        const near = new NameGuesser(known).nearest(written);
        if (near !== null) expect(known).toContain(near);
        if (known.includes(written)) expect(near).toBe(written);
        expect(new NameGuesser([...known].reverse()).nearest(written) === null).toBe(near === null);
      }),
    );
  });

  it('other names for all things change nothing but the names', () => {
    const names = [
      'front-axle',
      'front-wheel',
      'front-shock',
      'front-coil',
      'front-hose-bracket',
      'front-locker-plug',
      'front-hose',
      'lift-coil',
      'long-shock',
      'shock-nut',
    ];
    const renamed = names.reduceRight(
      (text, name, index) =>
        text.replaceAll(new RegExp(`(?<![a-z-])${name}(?![a-z-])`, 'g'), `thing${'abcdefghij'[index]}x`),
      UPLAND,
    );
    const shape = (fixture: string, back: (name: string) => string) => {
      const { model } = bind(parseFixture(fixture).files);
      return {
        findings: model.findings.length,
        things: [...model.things.values()].map((thing) => [
          back(thing.name),
          thing.kind,
          thing.type,
          thing.sided,
          thing.presence,
          thing.type === 'part' ? [...thing.joints.keys()] : thing.ends,
        ]),
        steps: model.steps.map((step) => [
          step.path,
          step.guard,
          step.checked,
          step.operations.map((operation) => [
            operation.verb,
            operation.targets.map((target) => back(target.written.split('.')[0]!)),
          ]),
        ]),
      };
    };
    const back = (name: string) => (name.startsWith('thing') ? names['abcdefghij'.indexOf(name[5]!)]! : name);
    expect(shape(renamed, back)).toEqual(shape(UPLAND, (name) => name));
  });
});
