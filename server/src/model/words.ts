/** What the words of a step say against its operations: another figure, another side. */

import type { Fix, Place } from '../findings/finding';
import { printQuantity } from '../units/format';
import { type Dimension, parseQuantity, type Quantity } from '../units/quantity';
import { type SpokenFigure, spokenFigures } from '../units/spoken';
import type { BoundOperation, BoundStep } from './model';
import type { OperationOutline, StepOutline } from './outline';
import { type Report, writeInstead } from './report';
import type { Runs } from './runs';
import { checkSideWords, sideWords } from './side-words';
import type { Cursor } from './source';

const RULE = 'words-against-data';

/** Keys of an operation whose figures a writer repeats in words. */
const FIGURES = ['to', 'by', 'expect', 'amount', 'stages', 'then', 'for'];

/** Lengths are many; one is that of an operation where its sentence has a word for what is done. */
const DEEDS: Readonly<Record<string, readonly string[]>> = {
  raise: 'raise raised raising lift lifted jack jacked up'.split(' '),
  lower: 'lower lowered lowering let drop down'.split(' '),
  drill: 'drill drilled drilling open bore ream pilot enlarge'.split(' '),
};

/** Before a figure: it is a distance to keep, a bound or a guess, and not what the operation does. */
const BESIDE: ReadonlySet<string> = new Set(
  'from least most within than under over about around some roughly nearly every each per only'.split(' '),
);
/** After a figure: it is a size of a tool or of a thing. */
const SIZES: ReadonlySet<string> = new Set(
  'socket sockets spanner spanners wrench key keys hex bit bits long wide deep thick away apart clear clearance gap'.split(
    ' ',
  ),
);

/** After a length: it is where something is. */
const PLACES: ReadonlySet<string> = new Set(['from', 'above', 'below', 'off']);

/**
 * Reports what the words of a step say otherwise than its operations do. Only what is plain on both sides: the words have a
 * figure that the step has nowhere, and the step has one of the same dimension that the words do not have; the words say
 * one side, or both, and the operations are for another.
 * @returns paths of the operations whose side was told of.
 */
export function checkWords(runs: Runs, steps: readonly BoundStep[], report: Report): Set<string> {
  const told = new Set<string>();
  runs.steps.forEach((run, index) => {
    if (run.frame.use !== null || run.step.operations.some(({ verb }) => verb === 'use')) return;
    const words = run.step.cursor.get('text');
    const bound = steps[index];
    if (words?.text == null || bound === undefined) return;
    for (const path of checkSideWords(words, bound, report)) told.add(path);
    const spoken = spokenFigures(words.text).filter((figure) => !isBeside(words.text!, figure));
    if (spoken.length > 0) checkSpoken(words, spoken, run.step, bound, report);
  });
  return told;
}

/** All of a text that it is judged by, in a word: two texts that agree in it are judged alike. */
export function wordsThatCount(text: string): string {
  const figures = spokenFigures(text).map((figure) => [
    text.slice(figure.start, figure.end),
    ...around(text, figure),
    deedsAround(text, figure),
  ]);
  return JSON.stringify([figures, sideWords(text)]);
}

/** Whether a figure of the words is of something beside the operation: `100 mm from the exhaust`, `an 18 mm socket`. */
function isBeside(text: string, figure: SpokenFigure): boolean {
  const [before, after] = around(text, figure);
  const beyond = figure.quantity.dimension === 'length' && after.some((word) => PLACES.has(word));
  return beyond || before.some((word) => BESIDE.has(word)) || after.some((word) => SIZES.has(word));
}

/** The two words before a figure and the one after it. */
function around(text: string, { start, end }: SpokenFigure): [string[], string[]] {
  return [
    wordsOf(text.slice(Math.max(0, start - 40), start)).slice(-2),
    wordsOf(text.slice(end, end + 40)).slice(0, 1),
  ];
}

/** Whether a figure of the words may be meant for one of the step. */
function isOf(text: string, spoken: SpokenFigure, { quantity, verb = '' }: Figure): boolean {
  if (spoken.quantity.dimension !== quantity.dimension) return false;
  const deeds = quantity.dimension === 'length' ? DEEDS[verb] : undefined;
  return deeds === undefined || deedsAround(text, spoken).some((word) => deeds.includes(word));
}

/** The words for what is done in the sentence of a figure. */
function deedsAround(text: string, { start }: SpokenFigure): string[] {
  const from = Math.max(...SENTENCE_ENDS.map((end) => text.lastIndexOf(end, start)));
  const ends = SENTENCE_ENDS.map((end) => text.indexOf(end, start)).filter((at) => at >= 0);
  const known = Object.values(DEEDS).flat();
  return wordsOf(text.slice(from + 1, Math.min(text.length, ...ends))).filter((word) => known.includes(word));
}

const SENTENCE_ENDS = ['. ', '; ', ': ', '! '];
const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter(Boolean);

/** A figure of a step: of an operation, of its condition, or of the data that the operation goes by. */
interface Figure {
  readonly quantity: Quantity;
  readonly whose: 'operation' | 'condition' | 'data';
  /** Where it is written in the guide, and as what; null for data. */
  readonly written: { readonly place: Place; readonly text: string } | null;
  readonly operation: string | null;
  /** Of an operation, its verb. */
  readonly verb?: string;
}

function checkSpoken(
  words: Cursor,
  spoken: readonly SpokenFigure[],
  step: StepOutline,
  bound: BoundStep,
  report: Report,
): void {
  const figures = [...figuresOf(step, bound)];
  const around = step.section.when === null ? [] : leaves(step.section.when, 'condition', null);
  const known = [...figures, ...around];
  const strange = spoken.filter(({ quantity }) => !known.some((one) => same(one.quantity, quantity)));
  const told = new Set<SpokenFigure>();
  for (const figure of figures) {
    const { quantity, whose, written, operation } = figure;
    if (spoken.some((one) => same(one.quantity, quantity))) continue;
    const against = strange.find((one) => !told.has(one) && isOf(words.text!, one, figure));
    if (against === undefined) continue;
    told.add(against);
    const place = placeOf(words, against);
    const says = words.text!.slice(against.start, against.end);
    const is = written?.text ?? printQuantity(quantity);
    report.add(RULE, place ?? words.place, `The words say ${says}, and the ${whose} ${is}.`, {
      severity: 'info',
      related: written === null ? [] : [{ place: written.place, message: `The ${whose} says ${is}` }],
      fixes: place === null ? [] : fixesOf(place, says, is, written?.place ?? null),
      ...(operation === null ? {} : { operation }),
    });
  }
}

function fixesOf(place: Place, says: string, is: string, written: Place | null): Fix[] {
  const words = { ...writeInstead(place, is), title: `Write ${is} in the words` };
  if (written === null) return [words];
  return [words, { ...writeInstead(written, says), title: `Write ${says} in the operation` }];
}

/** The figures of a step that its words may repeat: those of operations and conditions, and those that torques are taken from. */
function* figuresOf(step: StepOutline, bound: BoundStep): Generator<Figure> {
  const operations = new Map(bound.operations.map((operation) => [operation.path, operation]));
  for (const outline of step.operations) {
    yield* writtenFigures(outline);
    for (const when of [step.when, outline.when])
      if (when !== null) yield* leaves(when, 'condition', outline.path);
    const operation = operations.get(outline.path);
    if (operation !== undefined && outline.cursor.get('to') === null) yield* ofData(operation);
  }
}

function* writtenFigures({ cursor, verb, target, path }: OperationOutline): Generator<Figure> {
  for (const key of FIGURES) {
    const value = cursor.get(key);
    if (value !== null) for (const figure of leaves(value, 'operation', path)) yield { ...figure, verb };
  }
  if (verb === 'wait') yield* leaves(target, 'operation', path);
}

function* ofData({ verb, targets, path }: BoundOperation): Generator<Figure> {
  if (verb !== 'torque') return;
  for (const target of targets) {
    const joints =
      target.type === 'joint' ? [target.joint] : target.type === 'part' ? target.part.joints.values() : [];
    for (const { torque } of joints)
      if (torque !== null) yield { quantity: torque, whose: 'data', written: null, operation: path };
  }
}

function* leaves(cursor: Cursor, whose: Figure['whose'], operation: string | null): Generator<Figure> {
  if (cursor.isMap) for (const [, value] of cursor.entries()) yield* leaves(value, whose, operation);
  else if (cursor.isList) for (const item of cursor.items()) yield* leaves(item, whose, operation);
  else if (typeof cursor.value === 'string') {
    const result = parseQuantity(cursor.value, DIMENSIONS);
    if (result.ok)
      yield {
        quantity: result.quantity,
        whose,
        written: { place: cursor.place, text: cursor.value.trim() },
        operation,
      };
  }
}

const DIMENSIONS: readonly Dimension[] = ['torque', 'length', 'mass', 'angle', 'time', 'pressure', 'volume'];

/** What words round off: 1 %, or a unit of the trade's finest tool. */
const ROUNDED: Readonly<Partial<Record<Dimension, number>>> = { torque: 1, length: 0.5, pressure: 5 };

function same(a: Quantity, b: Quantity): boolean {
  if (a.dimension !== b.dimension) return false;
  const off = (x: number, y: number) =>
    Math.abs(x - y) <= Math.max(ROUNDED[a.dimension] ?? 0, 0.01 * Math.max(Math.abs(x), Math.abs(y)));
  // Of a range the words may say one end, or the middle.
  const within = b.low >= a.low && b.high <= a.high;
  return within || (off(a.low, b.low) && off(a.high, b.high)) || off(a.nominal, b.nominal);
}

function placeOf(words: Cursor, { start, end }: SpokenFigure): Place | null {
  const from = words.offsetOf(start);
  return from === null ? null : { uri: words.place.uri, span: { start: from, end: from + end - start } };
}
