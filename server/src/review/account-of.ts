/** Makes the account of a version: its steps with what they say, each thing by the name that its file gives it. */

import { stepNumbers, stretchesOf } from '../guide/order';
import { Outlines } from '../guide/outlines';
import { plainText, textInWords } from '../guide/text-in-words';
import type { BoundStep, Model } from '../model/model';
import type { GuideOutline, StepOutline } from '../model/outline';
import { type Cursor, itemsAt, textAt, textsAt } from '../model/source';
import type {
  CautionAccount,
  ConditionAccount,
  CoverAccount,
  GuideAccount,
  Said,
  StepAccount,
} from './account';
import { operationsOf } from './operations-of';
import { said, saidBy, shownValue } from './said';
import { ALL, rangesOf, variantsOf } from './variants-told';
import type { Version } from './version';

/** Keys of a guide's head that are told as they are. Steps, covers and waivers are compared by what they mean. */
const HEAD = 'title revision date note vehicle kit side when given leaves follows owes'.split(' ');
/** Keys of a step that are lists or words. */
const BESIDE = ['tools', 'skill', 'note', 'figure', 'figures'];

export function accountOf(version: Version): GuideAccount {
  const { model } = version;
  const outlines = new Outlines(version.opened);
  const guide = outlines.of(model.uri);
  const numbers = stepNumbers(model);
  const keys = new Map<string, number>();
  return {
    title: model.title,
    place: guide?.root.header ?? { uri: model.uri, span: { start: 0, end: 0 } },
    head: guide === null ? new Map() : saidIn(guide.root, HEAD),
    covers: coversOf(model, guide?.root ?? null),
    sections: (guide?.sections ?? []).map((section) => ({
      number: section.number,
      title: section.title.trim() || `Section ${section.number}`,
      id: section.id,
      condition: { ...writtenIn(section.when), variants: ALL },
      side: sideWritten(section.side),
      skill: textAt(section.cursor, 'skill'),
      note: textAt(section.cursor, 'note'),
      place: section.cursor.header,
    })),
    steps: stretchesOf(model).map((stretches) =>
      stepAccount(stretches, model, outlines, guide, numbers.get(stretches[0]!.path)!, keys),
    ),
  };
}

function stepAccount(
  stretches: readonly BoundStep[],
  model: Model,
  outlines: Outlines,
  guide: GuideOutline | null,
  number: string,
  keys: Map<string, number>,
): StepAccount {
  const step = stretches[0]!;
  const outline = outlines.step(step);
  const cursor = outline?.cursor ?? null;
  const own = outlines.of(step.place.uri) ?? guide;
  const printed = (text: string) => (own === null ? text : plainText(textInWords(text, model, own, step)));
  const text = cursor === null ? '' : (textAt(cursor, 'text')?.trim() ?? '');
  return {
    key: keyOf(step, keys),
    id: step.id,
    number,
    section: step.section > 0 ? Number.parseInt(step.path, 10) : 0,
    path: step.path,
    place: step.place,
    text,
    title: printed(text === '' ? step.title : text),
    operations: outline === null ? [] : operationsOf(stretches, outline, model),
    cautions: cursor === null ? [] : cautionsOf(cursor, printed),
    condition: conditionOf(outline?.when ?? null, model, step.guard),
    side: sideWritten(outline?.side ?? null),
    sides: [...new Set(stretches.flatMap(({ passes }) => passes.map((pass) => pass.join('+'))))].join(', '),
    people: step.people,
    time: step.time,
    optional: outline?.optional ?? false,
    draft: step.draft !== undefined,
    beside: cursor === null ? new Map() : saidIn(cursor, BESIDE),
  };
}

/** An id holds within the uses that brought the step in; of a section that is used twice each use counts. */
function keyOf({ id, uses }: BoundStep, keys: Map<string, number>): string | null {
  if (id === null) return null;
  const whole = [...uses.map(({ section }) => section), id].join('/');
  const count = keys.get(whole) ?? 0;
  keys.set(whole, count + 1);
  return count === 0 ? whole : `${whole}#${count}`;
}

function cautionsOf(cursor: Cursor, printed: (text: string) => string): CautionAccount[] {
  return itemsAt(cursor, 'caution').flatMap((caution) => {
    if (!caution.isMap && caution.text === null) return [];
    return [
      {
        signal: textAt(caution, 'signal') ?? 'caution',
        text: printed((textAt(caution, 'text') ?? caution.text ?? '').trim()),
        covers: textsAt(caution, 'covers'),
        place: (caution.get('text') ?? caution).header,
      },
    ];
  });
}

export function conditionOf(when: Cursor | null, model: Model, set: BoundStep['guard']): ConditionAccount {
  return { ...writtenIn(when), variants: variantsOf(model, set) };
}

const writtenIn = (when: Cursor | null) => ({
  written: saidBy(when) ?? '',
  shown: when === null ? '' : shownValue(when.value),
});

/** `both` is what is meant where nothing is said. */
export function sideWritten(side: StepOutline['side']): string {
  const text = side?.text ?? '';
  return text === 'both' ? '' : text;
}

export function saidIn(cursor: Cursor, keys: readonly string[]): Map<string, Said> {
  return new Map(
    keys.flatMap((key): [string, Said][] => {
      const value = cursor.get(key);
      return value === null
        ? []
        : [[key, { key: said(value.value), shown: shownValue(value.value), place: value.place }]];
    }),
  );
}

/** Values of traits and options that are covered; ranges of a numeric trait by their ends. */
function coversOf({ world, universe, uri }: Model, root: Cursor | null): Map<string, CoverAccount> {
  const said = root?.get('covers') ?? null;
  const around = said?.place ?? root?.header ?? { uri, span: { start: 0, end: 0 } };
  return new Map(
    world.variables.flatMap((variable, index): [string, CoverAccount][] => {
      if (variable.kind !== 'trait' && variable.kind !== 'option') return [];
      const values = variable.values.filter((_, value) =>
        world.diagrams.intersects(universe, world.literalAt(index, [value])),
      );
      const place = said?.get(variable.name)?.place ?? around;
      return [[variable.name, { values, place, key: rangesOf(variable, values).sort().join(', ') }]];
    }),
  );
}
