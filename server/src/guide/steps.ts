/** A step as it is printed: its words, marks, cautions and figures, and what stands beside it. */

import type { BoundStep, Joint, Model, Side } from '../model/model';
import { type Cursor, itemsAt, textAt } from '../model/source';
import { jointsOf, sidesInWords, targetThings, variantsOf } from './done-on';
import { nameInWords, oneSideOf, operationInWords, targetInWords } from './names';
import type { Outlines } from './outlines';
import { type Callout, type PrintedCaution, type PrintedFigure, type PrintedStep, SIGNALS } from './printed';
import { textInWords, type Words } from './text-in-words';
import { spannersOf } from './tools';
import { MAKERS, NO_FIGURE, type PrintedTorque, torquesOf } from './torques';
import { isPrinted, markOf } from './variants';

export interface StepsContext {
  readonly model: Model;
  readonly outlines: Outlines;
  /** Printed numbers of steps, by path. */
  readonly numbers: ReadonlyMap<string, string>;
  /** The final torques of the whole guide. */
  readonly torques: readonly PrintedTorque[];
  /** The name of a file from the path written in a document. */
  resolve(from: string, path: string): string;
}

/** @param stretches the step, in parts where a `use` stands amid its operations. */
export function printedStep(stretches: readonly BoundStep[], context: StepsContext): PrintedStep {
  const { model, outlines, numbers } = context;
  const step = stretches[0]!;
  const outline = outlines.step(step);
  const cursor = outline?.cursor ?? null;
  const guide = outlines.of(step.place.uri);
  const inWords = (text: string): Words[] =>
    guide === null ? [{ text, kind: 'plain' }] : textInWords(text, model, guide, step, numbers);
  const operations = stretches.flatMap((one) => one.operations);
  const written = (cursor === null ? null : textAt(cursor, 'text'))?.trim() ?? '';
  const words =
    written !== ''
      ? inWords(written)
      : [{ text: operationsInWords(operations) || step.title, kind: 'plain' as const }];
  return {
    path: step.path,
    number: numbers.get(step.path) ?? step.path,
    id: step.id,
    text: words,
    sides: sidesOf(stretches),
    when: markOf(model, model.world.diagrams.and(step.guard, model.universe), step.id ?? step.path),
    optional: outline?.optional ?? false,
    draft: step.draft !== undefined,
    people: step.people,
    skill: step.skill,
    cautions: cautionsOf(cursor, inWords),
    figures: figuresOf(cursor, step, context),
    callouts: calloutsOf(stretches, context),
  };
}

const operationsInWords = (operations: BoundStep['operations']): string =>
  operations.map((operation) => operationInWords(operation, oneSideOf(operation))).join(' ');

function cautionsOf(cursor: Cursor | null, inWords: (text: string) => Words[]): PrintedCaution[] {
  return (cursor === null ? [] : itemsAt(cursor, 'caution'))
    .flatMap((caution): PrintedCaution[] => {
      const text = textAt(caution, 'text')?.trim() ?? '';
      const said = textAt(caution, 'signal');
      const signal = SIGNALS.find((one) => one === said) ?? 'caution';
      return text === '' ? [] : [{ signal, text: inWords(text) }];
    })
    .sort((a, b) => SIGNALS.indexOf(a.signal) - SIGNALS.indexOf(b.signal));
}

function figuresOf(cursor: Cursor | null, { place }: BoundStep, { resolve }: StepsContext): PrintedFigure[] {
  if (cursor === null) return [];
  return [...itemsAt(cursor, 'figure'), ...itemsAt(cursor, 'figures')].flatMap((figure) => {
    const file = textAt(figure, 'file')?.trim() ?? '';
    if (file === '') return [];
    return [
      {
        name: resolve(place.uri, file),
        file,
        caption: textAt(figure, 'caption'),
        alt: textAt(figure, 'alt'),
      },
    ];
  });
}

/** Which sides a step works on, as far as it works on things with sides. */
function sidesOf(stretches: readonly BoundStep[]): string | null {
  const sides = new Set<Side>();
  for (const { operations } of stretches)
    for (const { targets, sides: said } of operations)
      if (targets.some((target) => targetThings(target).some(({ sided }) => sided)))
        for (const side of said) sides.add(side);
  const each = stretches.some(({ passes }) => passes.length > 1);
  const words = sidesInWords([...sides], sides.size > 0);
  return each && words === 'left and right' ? 'one side, then the other' : words;
}

function calloutsOf(stretches: readonly BoundStep[], context: StepsContext): Callout[] {
  const { model, numbers } = context;
  const step = stretches[0]!;
  const own = step.guard;
  const shown = (when: string | null): string | null =>
    when === markOf(model, model.world.diagrams.and(own, model.universe)) ? null : when;
  const torques = torquesOf(model, numbers, stretches).map((torque): Callout => {
    const { joint, figure, maker, how, bolts, rideHeight } = torque;
    return {
      sort: 'torque',
      label: nameInWords(joint.full),
      figure: figure?.metric ?? (maker ? MAKERS : NO_FIGURE),
      details: [
        ...(figure === null ? [] : [figure.imperial]),
        ...(bolts === null ? [] : [`${bolts} bolts`]),
        ...how,
        ...(rideHeight ? ['at ride height'] : []),
      ],
      when: shown(torque.when),
    };
  });
  return [
    ...sizesOf(stretches, model),
    ...together(torques),
    ...laterOf(stretches, context),
    ...fatesOf(stretches, model),
  ];
}

/** Joints with one figure stand under it together. */
function together(torques: readonly Callout[]): Callout[] {
  const found = new Map<string, Callout>();
  for (const one of torques) {
    const key = JSON.stringify([one.figure, one.details, one.when]);
    const known = found.get(key);
    const details = one.details.map((detail) => detail.replace(/ bolts$/, ' bolts each'));
    found.set(key, known === undefined ? one : { ...known, details, label: `${known.label}; ${one.label}` });
  }
  return [...found.values()];
}

/** The sizes of what the step turns, each once. */
function sizesOf(stretches: readonly BoundStep[], model: Model): Callout[] {
  const turns = new Set(['loosen', 'remove', 'unbolt', 'start', 'snug', 'bolt-up', 'torque']);
  const names = new Set<string>();
  for (const { operations } of stretches)
    for (const operation of operations)
      if (turns.has(operation.verb))
        for (const joint of jointsOf(operation))
          if (!joint.handTight && isPrinted(model, variantsOf(model, operation, joint)))
            for (const { name } of spannersOf(joint)) names.add(name.replace(/, to be measured$/, ''));
  if (names.size === 0) return [];
  return [{ sort: 'size', label: [...names].join(', '), figure: null, details: [], when: null }];
}

/** Joints that are only brought up here, with the step in which they get their torque. */
function laterOf(stretches: readonly BoundStep[], { model, torques }: StepsContext): Callout[] {
  const brought = new Set<Joint>();
  const done = new Set<Joint>();
  for (const { operations } of stretches)
    for (const operation of operations) {
      const { verb } = operation;
      if (verb !== 'snug' && verb !== 'start' && verb !== 'bolt-up' && verb !== 'torque') continue;
      for (const joint of jointsOf(operation)) {
        if (verb === 'torque') done.add(joint);
        else if (!joint.handTight && isPrinted(model, variantsOf(model, operation, joint)))
          brought.add(joint);
      }
    }
  const { diagrams } = model.world;
  const at = model.steps.indexOf(stretches[0]!);
  const found = new Map<string, Callout>();
  for (const joint of brought) {
    if (done.has(joint)) continue;
    let left = diagrams.and(model.universe, diagrams.and(stretches[0]!.guard, joint.part.presence));
    const here = left;
    for (const later of torques) {
      if (later.joint !== joint || later.at <= at) continue;
      const set = diagrams.and(left, later.set);
      if (set === 0) continue;
      left = diagrams.and(left, diagrams.not(later.set));
      const when = diagrams.implies(here, later.set) ? null : markOf(model, set);
      const figures =
        later.figure === null
          ? [later.maker ? MAKERS : NO_FIGURE]
          : [`${later.figure.metric} · ${later.figure.imperial}`];
      const details = [
        `tighten in step ${later.step}${later.rideHeight ? ', at ride height' : ''}`,
        [...figures, ...later.how.filter((one) => one.startsWith('then '))].join(', '),
      ];
      const key = JSON.stringify([details, when]);
      const known = found.get(key);
      const label = nameInWords(joint.full);
      found.set(key, {
        sort: 'later',
        label: known === undefined ? label : `${known.label}; ${label}`,
        figure: null,
        details,
        when,
      });
    }
  }
  return [...found.values()];
}

function fatesOf(stretches: readonly BoundStep[], model: Model): Callout[] {
  const gone: string[] = [];
  for (const { operations } of stretches)
    for (const operation of operations)
      if (operation.verb === 'discard' && isPrinted(model, variantsOf(model, operation, null)))
        gone.push(...operation.targets.map(targetInWords));
  if (gone.length === 0) return [];
  return [
    { sort: 'fate', label: `not used again: ${gone.join(', ')}`, figure: null, details: [], when: null },
  ];
}
