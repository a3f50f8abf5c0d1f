import type { PrintedGuide } from '../printed';
import { aboutLine, coverInWords, FOOT } from '../words';
import { frontPage } from './front';
import { type Content, h, htmlPage } from './html';
import { type Pictures, sectionPage } from './step';
import { type Paper, styleOf } from './style';
import { htmlTable } from './table';

export interface PageOptions {
  readonly paper: Paper;
  readonly pictures: Pictures;
}

/** The whole guide as one HTML file: for the screen, and to be printed on paper of a size. */
export function guidePage(guide: PrintedGuide, { paper, pictures }: PageOptions): string {
  const { lists, settings, torques, sections } = guide;
  const body = h('main', [
    running(guide),
    ...frontPage(guide),
    ...block('Before you begin', [
      ...part(htmlTable(lists.parts)),
      ...part(htmlTable(lists.hardware), lists.hardware.rows.length <= SHORT),
      ...part(htmlTable(lists.tools, { grouped: true })),
      ...part(htmlTable(lists.consumables), lists.consumables.rows.length <= SHORT),
    ]),
    ...(settings.length === 0
      ? []
      : block(
          'Settings',
          settings.flatMap((table) => part(htmlTable(table), table.rows.length <= SHORT)),
          false,
        )),
    h(
      'div',
      { className: ['page'] },
      sections.map((section) => sectionPage(section, pictures)),
    ),
    ...torquePages(torques),
    ...block(
      'Before the vehicle is driven',
      part(htmlTable(guide.beforeDriving, { headed: true }), true),
      false,
    ),
    ...handover(guide),
    ...block('Hours', htmlTable(guide.hoursTable, { headed: true })),
    ...block(
      'What was not checked',
      coverInWords(guide).map((sentence) => h('p', sentence)),
      false,
    ),
  ]);
  const style = styleOf({ paper, title: guide.title, about: aboutLine(guide), foot: FOOT });
  return htmlPage(guide.title, style, [body]);
}

/** The torque sheet alone, for the workshop to fill in and sign. */
export function torqueSheetPage(guide: PrintedGuide, paper: Paper): string {
  const body = h('main', [
    running(guide),
    h('p', { className: ['kicker'] }, 'Torque sheet'),
    h('h1', guide.title),
    h('div', { className: ['sign'], style: 'margin:0 0 8mm' }, [
      h('div', 'Vehicle, plate or number'),
      h('div', 'Job'),
      h('div', 'Distance run'),
    ]),
    ...torquePages(guide.torques, false),
    h('p', { style: 'margin-top:6mm' }, FOOT),
    signatures(SIGNED),
  ]);
  const style = styleOf({
    paper,
    title: `Torque sheet: ${guide.title}`,
    about: aboutLine(guide),
    foot: FOOT,
  });
  return htmlPage(`Torque sheet: ${guide.title}`, style, [body]);
}

/** Rows of a table that is not parted. */
const SHORT = 12;

const running = (guide: PrintedGuide): Content =>
  h('div', { className: ['running'] }, [h('b', guide.title), h('span', aboutLine(guide))]);

/** A heading with what stands under it, on a page of its own; nothing where nothing does. */
function block(title: string, content: readonly Content[], ownPage = true): Content[] {
  if (content.length === 0) return [];
  return [h('section', { className: ownPage ? ['block', 'page'] : ['block'] }, [h('h2', title), ...content])];
}

/** @param keep whether it is short, and stays on one page. */
const part = (content: readonly Content[], keep = false): Content[] =>
  content.length === 0 ? [] : [h('div', { className: keep ? ['block', 'keep'] : ['block'] }, [...content])];

function torquePages({ anywhere, rideHeight }: PrintedGuide['torques'], ownPage = true): Content[] {
  const look = { strong: ['newton-metres', 'pound-feet'] };
  const tables = [
    ...part(
      htmlTable(
        { ...anywhere, title: rideHeight.rows.length === 0 ? 'All joints' : 'As their steps come' },
        look,
      ),
    ),
    ...part(
      htmlTable(
        { ...rideHeight, title: 'With the weight on the wheels, or at ride height on supports' },
        { ...look, className: 'ride' },
      ),
    ),
  ];
  if (tables.length === 0) return [];
  return block('Torques', ownPage ? [...tables, signatures(SIGNED)] : tables, ownPage);
}

function handover(guide: PrintedGuide): Content[] {
  const { handover: table, leaves } = guide;
  if (table.rows.length === 0 && leaves.length === 0) return [];
  return block('Hand-over', [
    h(
      'p',
      'For whoever drives the vehicle. These belong to the job and come after delivery; keep this sheet with the vehicle.',
    ),
    ...part(htmlTable(table)),
    ...(leaves.length === 0
      ? []
      : part([
          h('h3', 'Left undone on purpose'),
          h(
            'ul',
            { className: ['notes'] },
            leaves.map((one) => h('li', one)),
          ),
        ])),
    signatures(['Handed over by', 'Taken over by', 'Date']),
  ]);
}

const SIGNED = ['Tightened by', 'Checked by', 'Date'];

const signatures = (names: readonly string[]): Content =>
  h(
    'div',
    { className: ['sign'] },
    names.map((name) => h('div', name)),
  );
