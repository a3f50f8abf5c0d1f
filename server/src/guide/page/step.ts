import type { Callout, PrintedFigure, PrintedSection, PrintedStep } from '../printed';
import type { Words } from '../text-in-words';
import { onlyWith } from '../words';
import { type Content, h } from './html';
import { signalPanel } from './signal';

/** What a page shows of a picture: a `data:` address, by the name of its file; none for what could not be read. */
export type Pictures = ReadonlyMap<string, string>;

export function sectionPage(section: PrintedSection, pictures: Pictures): Content {
  const anchor = `section-${section.number}`;
  return h('section', { className: ['block'], ariaLabelledBy: anchor }, [
    h('div', { className: ['head'] }, [
      h('h2', { id: anchor }, `${section.number} ${section.title}`),
      h('p', { className: ['about'] }, section.about.join(' · ')),
    ]),
    h(
      'ol',
      { className: ['steps'] },
      section.steps.map((step) => stepItem(step, pictures)),
    ),
  ]);
}

function stepItem(step: PrintedStep, pictures: Pictures): Content {
  const over = [
    ...(step.when === null ? [] : [mark(onlyWith(step.when), 'when')]),
    ...(step.optional ? [mark('if wanted', 'when')] : []),
    ...(step.draft ? [mark('draft: nobody has read this step', 'open')] : []),
  ];
  const under = [
    ...(step.sides === null ? [] : [mark(step.sides, 'side')]),
    ...(step.people > 1 ? [mark(`${step.people === 2 ? 'two' : step.people} people`, 'people')] : []),
    ...(step.skill === null ? [] : [mark(`by: ${step.skill}`, 'side')]),
  ];
  return h(
    'li',
    { className: step.callouts.length === 0 ? ['step', 'wide'] : ['step'], id: anchorOf(step.number) },
    [
      ...step.cautions.map(({ signal, text }) => signalPanel(signal, inline(text))),
      h('div', { className: step.number.length > 4 ? ['no', 'long'] : ['no'] }, step.number),
      h('div', { className: ['words'] }, [
        ...(over.length === 0 ? [] : [h('div', { className: ['marks', 'over'] }, over)]),
        h('p', inline(step.text)),
        ...(under.length === 0 ? [] : [h('div', { className: ['marks'] }, under)]),
        ...step.figures.map((figure, index) => picture(figure, step, index, pictures)),
      ]),
      ...(step.callouts.length === 0
        ? []
        : [h('div', { className: ['beside'] }, step.callouts.map(callout))]),
    ],
  );
}

const mark = (words: string, sort: string): Content => h('span', { className: ['mark', sort] }, words);

const anchorOf = (number: string): string => `step-${number}`;

/** Words with what they name marked; a step leads to it. */
export function inline(words: readonly Words[]): Content[] {
  return words.map(({ text, kind }) => {
    switch (kind) {
      case 'part':
        return h('b', text);
      case 'torque':
        return h('span', { className: ['torque'] }, text);
      case 'step':
        return h('a', { href: `#${anchorOf(text.replace(/^step /, ''))}` }, text);
      default:
        return { type: 'text', value: text };
    }
  });
}

function callout({ sort, label, figure, details, when }: Callout): Content {
  return h('div', { className: ['call', sort] }, [
    { type: 'text', value: label },
    ...(figure === null ? [] : [h('strong', figure)]),
    ...(details.length === 0 ? [] : [h('span', `${sort === 'later' ? ': ' : ''}${details.join(' · ')}`)]),
    ...(when === null ? [] : [h('i', onlyWith(when))]),
  ]);
}

function picture(figure: PrintedFigure, step: PrintedStep, index: number, pictures: Pictures): Content {
  const { name, file, caption, alt } = figure;
  const source = pictures.get(name);
  const number = step.figures.length > 1 ? `${step.number}${String.fromCharCode(97 + index)}` : step.number;
  return h('figure', [
    source === undefined
      ? h('div', { className: ['lost'] }, `The picture ${file} could not be read.`)
      : h('img', { src: source, alt: alt ?? caption ?? '' }),
    h('figcaption', [
      h('b', `Figure ${number}`),
      { type: 'text', value: caption === null ? '' : ` ${caption}` },
    ]),
  ]);
}
