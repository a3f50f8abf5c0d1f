/** Settings by height, load or whatever else they depend on: a table for each trait or option. */

import { cubesOf } from '../check/sentences';
import type { BoundOperation, Model } from '../model/model';
import { variantsOf } from './done-on';
import { targetInWords, titled } from './names';
import type { Cell, Table } from './table';
import { isPrinted, markOf } from './variants';

const SETS = new Set(['set', 'adjust', 'inflate', 'measure']);
const FIGURES = ['to', 'by', 'amount', 'expect'] as const;

interface Setting {
  readonly item: string;
  readonly value: string;
  readonly step: string;
  /** The one trait or option that it depends on, with its values; null for any other condition. */
  readonly by: { readonly name: string; readonly values: readonly string[] } | null;
  readonly when: string | null;
}

/** @param numbers printed numbers of steps, by path. */
export function settingTables(model: Model, numbers: ReadonlyMap<string, string>): Table[] {
  const settings = model.steps.flatMap((step) =>
    step.operations.flatMap((operation) => settingsOf(model, operation, numbers.get(step.path) ?? step.path)),
  );
  const names = [...new Set(settings.flatMap(({ by }) => by?.name ?? []))];
  const others = settings.filter(({ by }) => by === null);
  return [
    ...clearanceTable(model),
    ...names.map((name) =>
      tableBy(
        name,
        settings.filter(({ by }) => by?.name === name),
        model,
      ),
    ),
    ...(others.length === 0 ? [] : [plainTable(others)]),
  ];
}

function settingsOf(model: Model, operation: BoundOperation, step: string): Setting[] {
  const { verb, targets, words } = operation;
  if (!SETS.has(verb)) return [];
  const done = variantsOf(model, operation, null);
  const figure = FIGURES.find((key) => words.has(key));
  if (figure === undefined || !isPrinted(model, done)) return [];
  const when = markOf(model, done);
  // What is measured in every variant alike is a check, and stands among those.
  if (verb === 'measure' && when === null) return [];
  const said = words.get(figure)!.replaceAll('-', ' ');
  const value = figure === 'by' && verb === 'adjust' ? `by ${said}` : said;
  const cubes = cubesOf(model, model.world.diagrams.and(done, model.universe));
  const [cube] = cubes;
  const terms = cube === undefined ? [] : Object.entries(cube);
  const [term] = terms;
  const by =
    cubes.length === 1 && terms.length === 1 && term !== undefined && !term[0].includes(':')
      ? { name: term[0], values: term[1] }
      : null;
  return targets.map((target) => ({ item: titled(targetInWords(target)), value, step, by, when }));
}

const WHEEL: Table['columns'] = [
  { key: 'wheel-width', title: 'Wheel width' },
  { key: 'offset', title: 'Offset' },
  { key: 'backspacing', title: 'Backspacing' },
];

/** The largest tyre that the kits clear, by whatever that depends on. */
function clearanceTable(model: Model): Table[] {
  // Several rows may be for one lift, for wheels that differ.
  const rows = model.clearances.flatMap(({ set, value, wheel, note }): (readonly Cell[])[] =>
    isPrinted(model, set)
      ? [
          [
            markOf(model, set) ?? 'all',
            value.name,
            Math.round(value.diameter),
            ...WHEEL.map(({ key }) => wheel.get(key) ?? null),
            note,
          ],
        ]
      : [],
  );
  if (rows.length === 0) return [];
  return [
    {
      title: 'Largest tyre',
      columns: [
        { key: 'when', title: 'With' },
        { key: 'tyre', title: 'Largest tyre' },
        { key: 'diameter', title: 'Across, mm', numeric: true },
        ...WHEEL,
        { key: 'note', title: 'Note' },
      ],
      rows,
      byHand: [],
      notes: ['Turn from lock to lock, and drive over full travel, before a larger wheel is let go.'],
    },
  ];
}

/** A row for each value, a column for each thing that is set. */
function tableBy(name: string, settings: readonly Setting[], { world }: Model): Table {
  const order = world.variables.find((one) => one.name === name)?.values ?? [];
  const items = [...new Set(settings.map(({ item }) => item))];
  const values = [...new Set(settings.map(({ by }) => by!.values.join(' or ')))].sort(
    (a, b) => order.indexOf(a.split(' or ')[0]!) - order.indexOf(b.split(' or ')[0]!),
  );
  return {
    title: `Settings by ${name.replaceAll('-', ' ')}`,
    columns: [
      { key: name, title: titled(name.replaceAll('-', ' ')) },
      ...items.map((item) => ({ key: item.toLowerCase().replaceAll(/[ ,]+/g, '-'), title: item })),
      { key: 'steps', title: 'Steps' },
    ],
    rows: values.map((value): readonly Cell[] => {
      const here = settings.filter(({ by }) => by!.values.join(' or ') === value);
      return [
        value,
        ...items.map((item) =>
          here
            .filter((one) => one.item === item)
            .map((one) => one.value)
            .join('; '),
        ),
        [...new Set(here.map(({ step }) => step))].join(', '),
      ];
    }),
    byHand: [],
    notes: [],
  };
}

function plainTable(settings: readonly Setting[]): Table {
  return {
    title: 'Settings',
    columns: [
      { key: 'what', title: 'What' },
      { key: 'value', title: 'Set to' },
      { key: 'when', title: 'Only with' },
      { key: 'step', title: 'Step', numeric: true },
    ],
    rows: settings.map(({ item, value, when, step }) => [item, value, when, step]),
    byHand: [],
    notes: [],
  };
}
