import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Condition, NumericBounds } from '../../server/src/variants/condition';
import { Diagrams } from '../../server/src/variants/diagram';
import { orderVariables } from '../../server/src/variants/order';
import { buildWorld, type DeclaredVariable, type Variable, World } from '../../server/src/variants/world';
import { allAssignments } from './brute';

const traits: Variable[] = [
  { name: 'wheelbase', values: ['short', 'long'], kind: 'trait' },
  { name: 'lockers', values: ['none', 'fitted'], kind: 'trait' },
  { name: 'body', values: ['pick-up', 'wagon', 'chassis-cab'], kind: 'trait' },
  { name: 'winch', values: ['no', 'yes'], kind: 'option' },
];

const someLeaf = fc
  .constantFrom(...traits)
  .chain((trait) =>
    fc.subarray([...trait.values]).map((values): Condition => ({ variable: trait.name, values })),
  );

const someCondition: fc.Arbitrary<Condition> = fc.letrec<{ condition: Condition }>((tie) => ({
  condition: fc.oneof(
    { depthSize: 'small' },
    someLeaf,
    fc.array(tie('condition'), { maxLength: 3 }).map((all): Condition => ({ all })),
    fc.array(tie('condition'), { maxLength: 3 }).map((any): Condition => ({ any })),
    tie('condition').map((not): Condition => ({ not })),
  ),
})).condition;

/** Reads a condition over one variant, value by value. */
function holds(condition: Condition, variant: ReadonlyMap<string, string>): boolean {
  if ('all' in condition) return condition.all.every((part) => holds(part, variant));
  if ('any' in condition) return condition.any.some((part) => holds(part, variant));
  if ('not' in condition) return !holds(condition.not, variant);
  return 'values' in condition && condition.values.includes(variant.get(condition.variable)!);
}

describe('conditions', () => {
  it('hold in exactly the variants in which they read true', () => {
    fc.assert(
      fc.property(someCondition, fc.array(someCondition, { maxLength: 3 }), (condition, others) => {
        const world = buildWorld(traits, [...others, condition]);
        const { set, problems, tooWide } = world.set(condition);
        expect(problems).toEqual([]);
        expect(tooWide).toBe(false);
        for (const variant of allAssignments(traits.map((trait) => trait.values.length))) {
          const named = new Map(traits.map((trait, index) => [trait.name, trait.values[variant[index]!]!]));
          expect(world.evaluate(set, variant)).toBe(Number(holds(condition, named)));
        }
      }),
      { numRuns: 300 },
    );
  });

  it('name what the world does not know, and leave it out', () => {
    const world = new World(traits);
    const long: Condition = { variable: 'wheelbase', values: ['long'] };
    const axles = { variable: 'axles', values: ['two'] };
    const colour = { variable: 'lockers', values: ['blue'] };
    const both = world.set({ all: [axles, long, { not: colour }] });
    expect(both.set).toBe(world.literal('wheelbase', ['long']));
    expect(both.problems).toEqual([
      { why: 'unknown-variable', variable: 'axles', leaf: axles },
      { why: 'unknown-value', variable: 'lockers', value: 'blue', leaf: colour },
    ]);
    expect(both.problems[1]!.leaf).toBe(colour);
    // A condition of which nothing is known does not hide what it stands on.
    expect(world.set({ not: axles }).set).toBe(1);
    expect(world.set({ any: [axles, long] }).set).toBe(world.literal('wheelbase', ['long']));
    const partly = world.set({ variable: 'body', values: ['wagon', 'bus'] });
    expect(partly.set).toBe(world.literal('body', ['wagon']));
    expect(partly.problems.map((problem) => problem.value)).toEqual(['bus']);
    expect(world.set({ variable: 'body', atLeast: 3 }).problems[0]!.why).toBe('not-numeric');
    expect(world.set({ variable: '__proto__', values: ['constructor'] }).problems.length).toBe(1);
  });

  it('are given up, not suffered, where they are hostile', () => {
    let deep: Condition = { variable: 'winch', values: ['yes'] };
    for (let k = 0; k < 50_000; k++) deep = { not: deep };
    const world = new World(traits);
    expect(world.set(deep)).toMatchObject({ set: 1, tooWide: true });
    expect(buildWorld(traits, [deep]).variables.length).toBe(4);

    const many = Array.from(
      { length: 600 },
      (_, k): Variable => ({ name: `t${k}`, values: ['a', 'b'], kind: 'trait' }),
    );
    const wide = new World(many);
    const chain: Condition = { all: many.map(({ name }) => ({ variable: name, values: ['b'] })) };
    expect(wide.set(chain).tooWide).toBe(false);
    // Pairs torn apart, hidden from the order: every choice of the first halves must be remembered.
    const torn: Condition = {
      any: Array.from({ length: 300 }, (_, k) => ({
        all: [
          { variable: `t${k}`, values: ['b'] },
          { variable: `t${k + 300}`, values: ['b'] },
        ],
      })),
    };
    expect(wide.set(torn)).toMatchObject({ set: 1, tooWide: true });
    expect(wide.diagrams.nodeCount).toBeLessThan(60_000);
    // Known to the order, the same condition costs next to nothing.
    const ordered = buildWorld(many, torn.any);
    expect(ordered.set(torn).tooWide).toBe(false);
    expect(ordered.diagrams.nodeCount).toBeLessThan(20_000);
  });
});

describe('numeric traits', () => {
  const lift: DeclaredVariable = {
    name: 'lift',
    kind: 'trait',
    numeric: { dimension: 'length', from: 0, to: 150, symbol: 'mm' },
  };
  const names = (conditions: Condition[], declared: DeclaredVariable = lift): readonly string[] =>
    buildWorld([declared], conditions).variables[0]!.values;

  it('are cut where conditions draw a line, with names to print', () => {
    expect(names([])).toEqual(['0 mm to 150 mm']);
    expect(
      names([
        { variable: 'lift', atLeast: 75 },
        { variable: 'lift', below: 100 },
      ]),
    ).toEqual(['0 mm to under 75 mm', '75 mm to under 100 mm', '100 mm to 150 mm']);
    expect(names([{ variable: 'lift', above: 75 }])).toEqual(['0 mm to 75 mm', 'over 75 mm to 150 mm']);
    expect(names([{ variable: 'lift', values: ['75 mm'] }])).toEqual([
      '0 mm to under 75 mm',
      '75 mm',
      'over 75 mm to 150 mm',
    ]);
    expect(
      names([
        { variable: 'lift', atLeast: 500 },
        { variable: 'lift', atMost: 150 },
      ]),
    ).toEqual(['0 mm to 150 mm']);
    // Three inches and 76.2 mm are one line, whatever the arithmetic says.
    expect(
      names([
        { variable: 'lift', below: 3 * 25.4 },
        { variable: 'lift', atLeast: 76.2 },
      ]).length,
    ).toBe(2);
  });

  it('keep the values of a list', () => {
    const listed: DeclaredVariable = {
      name: 'lift',
      kind: 'trait',
      numeric: {
        dimension: 'length',
        list: [50, 75, 100].map((value) => ({ name: `${value} mm`, value })),
      },
    };
    const condition: Condition = { variable: 'lift', atLeast: 75 };
    const world = buildWorld([listed], [condition]);
    expect(world.variables[0]!.values).toEqual(['50 mm', '75 mm', '100 mm']);
    expect(world.describe(world.set(condition).set).cubes[0]![0]!.values).toEqual(['75 mm', '100 mm']);
    expect(world.set({ variable: 'lift', values: ['7.5 cm'] }).set).toBe(world.literal('lift', ['75 mm']));
    expect(world.set({ variable: 'lift', values: ['60 mm'] }).problems[0]!.why).toBe('unknown-value');
  });

  it('hold for every figure exactly as the bounds read', () => {
    const bound = fc.option(fc.integer({ min: -1, max: 11 }), { nil: undefined });
    const leaf = fc
      .record({ atLeast: bound, above: bound, atMost: bound, below: bound })
      .map((bounds): Condition => ({ variable: 'lift', ...bounds }));
    fc.assert(
      fc.property(fc.array(leaf, { minLength: 1, maxLength: 4 }), (leaves) => {
        const declared: DeclaredVariable = {
          name: 'lift',
          kind: 'trait',
          numeric: { dimension: 'length', from: 0, to: 10, symbol: 'mm' },
        };
        const world = buildWorld([declared], leaves);
        const { intervals } = world.variables[0]!.numeric!;
        for (let figure = 0; figure <= 10; figure += 0.5) {
          const places = intervals.flatMap((interval, place) => {
            const over = interval.lowOpen ? figure > interval.low : figure >= interval.low;
            const under = interval.highOpen ? figure < interval.high : figure <= interval.high;
            return over && under ? [place] : [];
          });
          expect(places.length).toBe(1);
          for (const condition of leaves) {
            const { atLeast, above, atMost, below } = condition as NumericBounds;
            const wanted =
              !(figure < (atLeast ?? -99)) &&
              figure > (above ?? -99) &&
              !(figure > (atMost ?? 99)) &&
              figure < (below ?? 99);
            const { set, problems } = world.set(condition);
            expect(problems).toEqual([]);
            expect(world.evaluate(set, places)).toBe(Number(wanted));
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  it('say so where a bound was not among the conditions that made the world', () => {
    const world = buildWorld([lift], [{ variable: 'lift', atLeast: 75 }]);
    expect(world.set({ variable: 'lift', below: 80 })).toMatchObject({
      set: 1,
      problems: [{ why: 'uncut' }],
    });
    expect(world.set({ variable: 'lift', below: 75 }).problems).toEqual([]);
    expect(world.set({ variable: 'lift', atLeast: 200 }).set).toBe(0);
  });
});

describe('a world', () => {
  it('describes in declared order whatever the order inside', () => {
    const together: Condition = {
      all: [
        { variable: 'winch', values: ['yes'] },
        { variable: 'wheelbase', values: ['long'] },
      ],
    };
    const world = buildWorld(traits, [together]);
    expect(world.levelAt(3)).toBe(1);
    expect(world.variableAt(1).name).toBe('winch');
    const { set } = world.set({ all: [together, { variable: 'lockers', values: ['fitted'] }] });
    expect(world.describe(set)).toEqual({
      extent: 'some',
      complete: true,
      cubes: [
        [
          { variable: 'wheelbase', index: 0, kind: 'trait', values: ['long'] },
          { variable: 'lockers', index: 1, kind: 'trait', values: ['fitted'] },
          { variable: 'winch', index: 3, kind: 'option', values: ['yes'] },
        ],
      ],
    });
    expect(world.cubesOf(set)).toEqual([{ wheelbase: ['long'], lockers: ['fitted'], winch: ['yes'] }]);
    expect(world.cubesOf(1)).toEqual([]);
    expect(world.describe(0).extent).toBe('none');
    expect(world.someVariant(set)).toEqual([1, 1, 0, 1]);
    expect(world.evaluate(set, [1, 1, 2, 1])).toBe(1);
    expect(world.someVariant(0)).toBeUndefined();
  });

  it('leaves out what covers excludes', () => {
    const world = new World(traits);
    const care = world.literal('body', ['pick-up', 'wagon'])!;
    const set = world.literal('body', ['pick-up', 'chassis-cab'])!;
    expect(world.cubesOf(set, care)).toEqual([{ body: ['pick-up'] }]);
    expect(world.describe(care, care).extent).toBe('all');
  });

  it('takes doubled names and values as they first come, and none at all', () => {
    const world = new World([
      { name: 'a', values: ['x', 'x', 'y'], kind: 'trait' },
      { name: 'a', values: ['z'], kind: 'option' },
      { name: 'b', values: [], kind: 'trait' },
      { name: 'c', values: ['p', 'q'], kind: 'found' },
    ]);
    expect(world.variables.map((variable) => variable.name)).toEqual(['a', 'b', 'c']);
    expect(world.variables[0]!.values).toEqual(['x', 'y']);
    expect(world.literal('a', ['z'])).toBeUndefined();
    expect(world.variableAt(world.levelAt(2)).name).toBe('c');
    expect(world.cubesOf(world.literal('c', ['q'])!)).toEqual([{ c: ['q'] }]);
    expect(new World([]).describe(1)).toEqual({ extent: 'all', cubes: [], complete: true });
  });
});

describe('the order of variables', () => {
  const apart = Array.from({ length: 20 }, (_, k) => (k < 10 ? `a${k}` : `b${k - 10}`));
  const pairs = Array.from({ length: 10 }, (_, k) => [`a${k}`, `b${k}`]);

  it('puts together what is used together: some 20 nodes where the declared order takes some 2,000', () => {
    const nodes = (order: readonly string[]): number => {
      const diagrams = new Diagrams(order.map(() => 2));
      const level = (name: string) => order.indexOf(name);
      let f = 0;
      for (const [a, b] of pairs) {
        f = diagrams.or(f, diagrams.and(diagrams.literal(level(a!), [1]), diagrams.literal(level(b!), [1])));
      }
      return diagrams.size(f);
    };
    expect(nodes(apart)).toBe(2046);
    expect(nodes(orderVariables(apart, pairs))).toBe(20);
  });

  it('keeps the declared order where nothing speaks against it', () => {
    expect(orderVariables(apart, [])).toEqual(apart);
    expect(
      orderVariables(
        ['a', 'b', 'c'],
        [
          ['b', 'a'],
          ['c', 'b'],
          ['unknown', 'a'],
        ],
      ),
    ).toEqual(['a', 'b', 'c']);
  });

  it('keeps linked variables in one stretch, and every variable once', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];
    fc.assert(
      fc.property(fc.array(fc.subarray(names, { maxLength: 4 }), { maxLength: 6 }), (groups) => {
        const order = orderVariables(names, groups);
        expect([...order].sort()).toEqual(names);
        expect(orderVariables(names, groups)).toEqual(order);
        // Regions by plain flooding.
        const region = new Map(names.map((name) => [name, name]));
        for (let round = 0; round < 8; round++) {
          for (const group of groups) {
            const least = group.map((name) => region.get(name)!).sort()[0]!;
            for (const name of group) region.set(name, least);
          }
        }
        const changes = order.filter(
          (name, k) => k > 0 && region.get(name) !== region.get(order[k - 1]!),
        ).length;
        expect(changes + 1).toBe(new Set(region.values()).size);
      }),
      { numRuns: 300 },
    );
  });

  it('bears a group of thousands', () => {
    const many = Array.from({ length: 3000 }, (_, k) => `v${k}`);
    expect(orderVariables(many, [many])).toEqual(many);
  });
});
