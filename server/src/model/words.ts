/** What the words of a step say against its operations: another figure, another side. */

import type { Fix, Harm, Place } from '../findings/finding';
import { printQuantity } from '../units/format';
import { pairsInWords, type SpokenPair } from '../units/pairs-in-words';
import { type Dimension, parseQuantity, type Quantity } from '../units/quantity';
import { type SpokenFigure, spokenFigures } from '../units/spoken';
import { checkCountWords, countsIn } from './count-words';
import type { Aid, BoundOperation, BoundStep } from './model';
import { checkNameWords, nameWords } from './name-words';
import type { OperationOutline, StepOutline } from './outline';
import { type Report, writeInstead } from './report';
import type { Runs } from './runs';
import { checkSideWords, sideWords } from './side-words';
import type { Cursor } from './source';
import { checkToolWords, toolSizesIn } from './tool-words';

const RULE = 'words-against-data';

/** Keys of an operation whose figures a writer repeats in words. */
const FIGURES = ['to', 'by', 'expect', 'amount', 'stages', 'then', 'for'];

/** Of what is done by these verbs, a sentence that gives its figure has one of these words; any other figure is of something else. */
const DEEDS: Readonly<Record<string, readonly string[]>> = {
  raise: 'raise raised raising lift lifted jack jacked up'.split(' '),
  lower: 'lower lowered lowering let drop down'.split(' '),
  drill: 'drill drilled drilling open bore ream pilot enlarge'.split(' '),
  inflate: 'set fill filled inflate inflated pump pressure'.split(' '),
  deflate: 'let deflate reduce set'.split(' '),
  measure: 'may must allowed limit tolerance differ'.split(' '),
  check: 'may must allowed limit tolerance differ'.split(' '),
};

const DEED_WORDS: ReadonlySet<string> = new Set(Object.values(DEEDS).flat());

/** In a clause with one of these, the figure is a bound, a case or a thing of the past, and not what is done. */
const ASIDE: ReadonlySet<string> = new Set(
  'if unless until before old longer not never instead was were formerly stops gauge otherwise when'.split(
    ' ',
  ),
);
/** Shortly before a figure: it is a distance to keep, a bound or a guess. */
const BESIDE: ReadonlySet<string> = new Set(
  'from least most within than under over about around some roughly nearly every each per only'.split(' '),
);
/** Right after a figure: it is a size of a tool or of a thing. */
const SIZES: ReadonlySet<string> = new Set(
  'socket sockets spanner spanners wrench key keys hex bit bits long wide deep thick away apart clear clearance gap travel drill drills'.split(
    ' ',
  ),
);
/** Shortly after a length: it is where something is. */
const PLACES: ReadonlySet<string> = new Set('from above below off edge behind ahead'.split(' '));

/**
 * Reports what the words of a step say otherwise than its operations do. Only what is plain on both sides: the words have a
 * figure that the step has nowhere, and the step has one of the same dimension that the words do not have; the words say
 * one side, or both, and the operations are for another; they count bolts, size a spanner or name a part or an aid that is another.
 * @returns paths of the operations whose side was told of.
 */
export function checkWords(
  runs: Runs,
  steps: readonly BoundStep[],
  aids: ReadonlyMap<string, Aid>,
  report: Report,
): Set<string> {
  const told = new Set<string>();
  runs.steps.forEach((run, index) => {
    if (run.frame.use !== null || run.step.operations.some(({ verb }) => verb === 'use')) return;
    const words = run.step.cursor.get('text');
    const bound = steps[index];
    if (words?.text == null || bound === undefined) return;
    for (const path of checkSideWords(words, run.step, bound, report)) told.add(path);
    checkCountWords(words, bound, report);
    checkToolWords(words, bound, report);
    checkNameWords(words, bound, aids, report);
    const { pairs, single } = pairsInWords(words.text, spokenFigures(words.text));
    for (const pair of pairs) checkPair(words, pair, report, run.step.operations[0]?.path);
    if (single.length > 0) checkSpoken(words, single, run.step, bound, report);
  });
  return told;
}

/** All of a text that it is judged by, in a word: two texts that agree in it are judged alike. */
export function wordsThatCount(text: string): string {
  const figures = spokenFigures(text).map((figure) => [
    text.slice(figure.start, figure.end),
    isBeside(text, figure),
    wordsOf(stretchOf(text, figure, SENTENCE_ENDS)).filter((word) => DEED_WORDS.has(word)),
  ]);
  const { pairs } = pairsInWords(text, spokenFigures(text));
  const both = pairs.map(({ first, second }) => text.slice(first.start, second.end));
  const counts = countsIn(text).map(({ words }) => words);
  const tools = toolSizesIn(text).map(({ start, end }) => text.slice(start, end));
  return JSON.stringify([figures, both, sideWords(text), counts, tools, nameWords(text)]);
}

/** Whether a figure of the words is of something beside the operation: `100 mm from the exhaust`, `an 18 mm socket`. */
function isBeside(text: string, figure: SpokenFigure): boolean {
  const { start, end } = figure;
  const before = wordsOf(text.slice(Math.max(0, start - 40), start)).slice(-2);
  const after = wordsOf(text.slice(end, end + 40)).slice(0, 3);
  const beyond = figure.quantity.dimension === 'length' && after.some((word) => PLACES.has(word));
  if (beyond || before.some((word) => BESIDE.has(word)) || SIZES.has(after[0] ?? '')) return true;
  return wordsOf(stretchOf(text, figure, CLAUSE_ENDS)).some((word) => ASIDE.has(word));
}

/** Whether a figure of the words may be meant for one of the step. */
function isOf(text: string, spoken: SpokenFigure, { quantity, verb = '' }: Figure): boolean {
  if (spoken.quantity.dimension !== quantity.dimension) return false;
  const deeds = DEEDS[verb];
  return (
    deeds === undefined ||
    wordsOf(stretchOf(text, spoken, SENTENCE_ENDS)).some((word) => deeds.includes(word))
  );
}

const SENTENCE_ENDS = ['. ', '; ', ': ', '! '];
const CLAUSE_ENDS = [...SENTENCE_ENDS, ', ', ' (', ') '];

/** The sentence, or the clause, that a figure stands in. */
function stretchOf(text: string, { start }: SpokenFigure, stops: readonly string[]): string {
  const from = Math.max(...stops.map((end) => text.lastIndexOf(end, start)));
  const ends = stops.map((end) => text.indexOf(end, start)).filter((at) => at >= 0);
  return text.slice(from + 1, Math.min(text.length, ...ends));
}

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
  /** Of an operation, its verb; of a bound in a condition, its word. */
  readonly verb?: string;
  readonly bound?: string;
}

function checkSpoken(
  words: Cursor,
  spoken: readonly SpokenFigure[],
  step: StepOutline,
  bound: BoundStep,
  report: Report,
): void {
  const text = words.text!;
  const isSaid = ({ quantity }: Figure) => spoken.some((one) => same(one.quantity, quantity));
  const figures = [...figuresOf(step, bound)];
  const known = [...elsewhere(step)];
  const unknown = spoken.filter(
    ({ quantity }) =>
      !figures.some((one) => allows(one, quantity)) && !known.some((one) => same(one, quantity)),
  );
  const strange = unknown.filter((one) => !isBeside(text, one));
  const told = new Set<Figure>();
  for (const against of strange) {
    const figure = figures
      .filter((one) => !told.has(one) && !isSaid(one) && isOf(text, against, one))
      .sort((a, b) => apart(a.quantity, against.quantity) - apart(b.quantity, against.quantity))[0];
    // Of more figures than are wanted nobody knows which is meant.
    const alike = unknown.filter(({ quantity }) => quantity.dimension === against.quantity.dimension);
    if (figure === undefined || alike.length > countOf(figures, against.quantity.dimension, isSaid)) continue;
    const { quantity, whose, written, operation } = figure;
    told.add(figure);
    const place = placeOf(words, against);
    const says = text.slice(against.start, against.end);
    const is = written?.text ?? printQuantity(quantity);
    report.add(RULE, place ?? words.place, `The words say ${says}, and the ${whose} ${is}.`, {
      severity: 'info',
      ...graver(quantity),
      related: written === null ? [] : [{ place: written.place, message: `The ${whose} says ${is}` }],
      fixes: place === null ? [] : fixesOf(place, says, is, figure),
      ...(operation === null ? {} : { operation }),
    });
  }
}

/** One figure in two units that are not the same. */
function checkPair(
  words: Cursor,
  { first, second }: SpokenPair,
  report: Report,
  operation: string | undefined,
): void {
  if (same(first.quantity, second.quantity)) return;
  const text = words.text!;
  const [one, other] = [first, second].map(({ start, end }) => text.slice(start, end));
  const is = printQuantity(second.quantity, first.quantity.symbol);
  const place = placeOf(words, { ...second, start: first.start });
  report.add(RULE, place ?? words.place, `The words say ${one} and ${other}, which is ${is}.`, {
    severity: 'info',
    ...graver(first.quantity),
    ...(operation === undefined ? {} : { operation }),
  });
}

/** A torque or a pressure that the fitter goes by and that is wrong breaks something; another figure is seen to be wrong. */
const graver = ({ dimension }: Quantity): { readonly harm?: Harm } =>
  dimension === 'torque' || dimension === 'pressure' ? { harm: 'damage' } : {};

const countOf = (figures: readonly Figure[], dimension: Dimension, isSaid: (one: Figure) => boolean) =>
  figures.filter((one) => one.quantity.dimension === dimension && !isSaid(one)).length;

/** Whether a figure of the words is that of the step, or lies within a bound of its condition. */
function allows({ quantity, bound }: Figure, spoken: Quantity): boolean {
  if (same(quantity, spoken)) return true;
  if (quantity.dimension !== spoken.dimension) return false;
  if (bound === 'at-least' || bound === 'above') return spoken.nominal > quantity.nominal;
  return (bound === 'at-most' || bound === 'below') && spoken.nominal < quantity.nominal;
}

function fixesOf(place: Place, says: string, is: string, { whose, written }: Figure): Fix[] {
  const words = { ...writeInstead(place, is), title: `Write ${is} in the words` };
  if (written === null) return [words];
  return [words, { ...writeInstead(written.place, says), title: `Write ${says} in the ${whose}` }];
}

/** Figures that the words may well say too: of the section's conditions, and in free words beside an operation. */
function* elsewhere(step: StepOutline): Generator<Quantity> {
  if (step.section.when !== null)
    for (const { quantity } of leaves(step.section.when, 'condition', null)) yield quantity;
  for (const { cursor } of step.operations)
    for (const [, value] of cursor.entries())
      for (const text of value.texts) for (const { quantity } of spokenFigures(text)) yield quantity;
}

/** How far two figures are apart, as a share of the larger one. */
const apart = (a: Quantity, b: Quantity): number =>
  Math.abs(a.nominal - b.nominal) / Math.max(Math.abs(a.nominal), Math.abs(b.nominal), 1e-9);

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
        ...(whose === 'condition' && cursor.keyText !== null ? { bound: cursor.keyText } : {}),
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
