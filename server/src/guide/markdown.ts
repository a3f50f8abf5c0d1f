/** The guide as Markdown: for a repository, a wiki, or whoever makes a page of their own from it. */

import type { PhrasingContent, RootContent } from 'mdast';
import { listed } from '../findings/words';
import { headed } from './markdown-table';
import { emphasis, heading, list as listOf, markdownOf, paragraph, quote, strong, text } from './mdast';
import { MEANING } from './page/signal';
import type { Callout, PrintedFigure, PrintedGuide, PrintedStep } from './printed';
import type { Table } from './table';
import type { Words } from './text-in-words';
import {
  aboutLine,
  coverInWords,
  doneBy,
  FOOT,
  hoursLine,
  inAllVariants,
  onlyWith,
  READ_FIRST,
  stateInWords,
} from './words';

/**
 * All of a guide.
 * @param address of a picture, from where the text will stand; its path as the guide has it unless told.
 */
export function guideMarkdown(
  guide: PrintedGuide,
  address: (figure: PrintedFigure) => string = ({ file }) => file,
): string {
  const { lists, settings, torques } = guide;
  return markdownOf([
    heading(1, guide.title),
    paragraph(emphasis(aboutLine(guide))),
    ...stateInWords(guide).map((words) => quote([strong(words)])),
    list([
      [strong('Fits:'), text(` ${guide.vehicle ?? 'the vehicle that the kit is for'}`)],
      ...guide.covers.map(({ name, values }) => [
        strong(`${name.replaceAll('-', ' ')}:`),
        text(` ${listed(values, 'or')}`),
      ]),
      [strong('Printed for:'), text(` ${inAllVariants(guide)}`)],
      [strong('Work:'), text(` ${hoursLine(guide.hours)}`)],
      [strong('Done by:'), text(` ${doneBy(guide)}`)],
      ...guide.starts.map((one) => [strong('Starts with:'), text(` ${one}`)]),
    ]),
    heading(2, 'Read this first'),
    ...READ_FIRST.map((words) => paragraph(text(words))),
    paragraph(text(FOOT)),
    ...(guide.signals.length === 0
      ? []
      : [
          heading(2, 'Signal words'),
          list(guide.signals.map((signal) => [strong(signal.toUpperCase()), text(`: ${MEANING[signal]}`)])),
        ]),
    ...headed(lists.parts),
    ...headed(lists.hardware),
    ...headed(lists.tools),
    ...headed(lists.consumables),
    ...settings.flatMap((table) => headed(table)),
    ...guide.sections.flatMap(({ number, title, about, steps }) => [
      heading(2, `${number} ${title}`),
      ...(about.length === 0 ? [] : [paragraph(emphasis(about.join(' · ')))]),
      ...steps.flatMap((step) => stepBlocks(step, address)),
    ]),
    ...torqueBlocks(torques),
    ...headed(guide.beforeDriving),
    ...headed(guide.handover),
    ...(guide.leaves.length === 0
      ? []
      : [heading(2, 'Left undone on purpose'), list(guide.leaves.map((one) => [text(one)]))]),
    ...headed(guide.hoursTable),
    heading(2, 'What was not checked'),
    ...coverInWords(guide).map((sentence) => paragraph(text(sentence))),
  ]);
}

/** The torques alone. */
export function torqueSheetMarkdown(guide: PrintedGuide): string {
  return markdownOf([
    heading(1, `Torque sheet: ${guide.title}`),
    paragraph(emphasis(aboutLine(guide))),
    ...torqueBlocks(guide.torques),
    paragraph(text(FOOT)),
    list(['Vehicle', 'Tightened by', 'Checked by', 'Date'].map((one) => [text(`${one}: `)])),
  ]);
}

/** A list of a guide as Markdown. */
export const tableMarkdown = (table: Table): string => markdownOf(headed(table, 1));

function torqueBlocks({ anywhere, rideHeight }: PrintedGuide['torques']): RootContent[] {
  return [
    ...headed(anywhere),
    ...headed({
      ...rideHeight,
      title: 'Torques with the weight on the wheels, or at ride height on supports',
    }),
  ];
}

function stepBlocks(step: PrintedStep, address: (figure: PrintedFigure) => string): RootContent[] {
  const marks = [
    ...(step.when === null ? [] : [onlyWith(step.when)]),
    ...(step.optional ? ['if wanted'] : []),
    ...(step.draft ? ['draft: nobody has read this step'] : []),
    ...(step.sides === null ? [] : [step.sides]),
    ...(step.people > 1 ? [`${step.people} people`] : []),
    ...(step.skill === null ? [] : [`by: ${step.skill}`]),
  ];
  return [
    ...step.cautions.map((caution) =>
      quote([strong(`${caution.signal.toUpperCase()}:`), text(' '), ...inline(caution.text)]),
    ),
    paragraph(
      strong(step.number),
      text(' '),
      ...inline(step.text),
      ...(marks.length === 0 ? [] : [text(' '), emphasis(`(${marks.join('; ')})`)]),
    ),
    ...(step.callouts.length === 0 ? [] : [list(step.callouts.map(callout))]),
    ...step.figures.map((figure) =>
      paragraph({
        type: 'image',
        url: address(figure),
        alt: figure.alt ?? '',
        title: figure.caption ?? null,
      }),
    ),
  ];
}

function callout({ sort, label, figure, details, when }: Callout): PhrasingContent[] {
  return [
    text(label),
    ...(figure === null ? [] : [text(': '), strong(figure)]),
    ...(details.length === 0 ? [] : [text(`${sort === 'torque' ? ', ' : ': '}${details.join(', ')}`)]),
    ...(when === null ? [] : [text(' '), emphasis(`(${onlyWith(when)})`)]),
  ];
}

const inline = (words: readonly Words[]): PhrasingContent[] =>
  words.map(({ text: value, kind }) => (kind === 'plain' || kind === 'step' ? text(value) : strong(value)));

const list = (lines: readonly (readonly PhrasingContent[])[]): RootContent =>
  listOf(lines.map((line) => ({ line })));
