import { listed } from '../../findings/words';
import type { PrintedGuide } from '../printed';
import { doneBy, hoursLine, inAllVariants, READ_FIRST, stateInWords } from '../words';
import { type Content, h } from './html';
import { MEANING, signalPanel } from './signal';

/** The first page: what it is, what it fits and for whom, how long it takes, and what is read before anything else. */
export function frontPage(guide: PrintedGuide): Content[] {
  const { hours, signals, mostPeople } = guide;
  const facts: [string, string][] = [
    ['Fits', guide.vehicle ?? 'the vehicle that the kit is for'],
    ...guide.covers.map(({ name, values }): [string, string] => [
      name.replaceAll('-', ' '),
      listed(values, 'or'),
    ]),
    ['Printed for', inAllVariants(guide)],
    ...(guide.starts.length === 0 ? [] : [['Starts with', guide.starts.join('; ')] as [string, string]]),
    ['Work', `${hoursLine(hours)}${mostPeople > 1 ? `; ${mostPeople} people at times` : ''}`],
    ['Done by', doneBy(guide)],
    ['Revision', [guide.revision ?? 'none said', ...(guide.date === null ? [] : [guide.date])].join(' · ')],
  ];
  return [
    h(
      'p',
      { className: ['kicker'] },
      guide.kits.length === 0 ? 'Install guide' : `Install guide · ${listed(guide.kits)}`,
    ),
    h('h1', guide.title),
    ...stateInWords(guide).map((words) => h('div', { className: ['stop'] }, [h('p', words)])),
    h(
      'dl',
      { className: ['facts'] },
      facts.flatMap(([name, value]) => [
        h('dt', name.charAt(0).toUpperCase() + name.slice(1)),
        h('dd', value),
      ]),
    ),
    h('div', { className: ['first'] }, [
      h('h3', { style: 'margin-top:0' }, 'Read this first'),
      ...READ_FIRST.map((words) => h('p', words)),
    ]),
    ...(signals.length === 0
      ? []
      : [
          h('div', { className: ['signals'] }, [
            h('h3', 'Signal words'),
            ...signals.map((signal) => signalPanel(signal, [{ type: 'text', value: MEANING[signal] }])),
          ]),
        ]),
    h('h3', 'Contents'),
    h(
      'ol',
      { className: ['contents'] },
      guide.sections.map(({ number, title }) =>
        h('li', h('a', { href: `#section-${number}` }, `${number} ${title}`)),
      ),
    ),
  ];
}
