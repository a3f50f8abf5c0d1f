import { counted, listed } from '../../findings/words';
import type { PrintedGuide } from '../printed';
import { inAllVariants, stateInWords } from '../words';
import { type Content, h } from './html';
import { MEANING, signalPanel } from './signal';

/** The first page: what it is, what it fits and for whom, how long it takes, and what is read before anything else. */
export function frontPage(guide: PrintedGuide): Content[] {
  const { hours, signals, skills, mostPeople } = guide;
  const facts: [string, string][] = [
    ['Fits', guide.vehicle ?? 'the vehicle that the kit is for'],
    ...guide.covers.map(({ name, values }): [string, string] => [
      name.replaceAll('-', ' '),
      listed(values, 'or'),
    ]),
    ['Printed for', inAllVariants(guide)],
    ...(guide.starts.length === 0 ? [] : [['Starts with', guide.starts.join('; ')] as [string, string]]),
    [
      'Work',
      `${hoursLine(hours)}${mostPeople > 1 ? `; ${counted(mostPeople, 'people').replace(/s$/, '')} at times` : ''}`,
    ],
    [
      'Done by',
      skills.length === 0
        ? 'people trained for work on vehicles'
        : `${listed(skills)}, trained for work on vehicles`,
    ],
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
      h(
        'p',
        "Work on suspension, steering, brakes and wiring is for qualified people with the equipment for it. Where the vehicle maker's data, local rules or the maker of an aid say otherwise than this guide, they come first.",
      ),
      h(
        'p',
        'Read the whole guide before the first step, and do the steps in their order. Never work beneath a vehicle that a jack alone holds. Wear eye protection and gloves. Stop when anything differs from what is written here, and ask.',
      ),
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

function hoursLine({
  lowestPrinted,
  highestPrinted,
  highestAt90,
  atLeast,
  highest,
  elapsedPrinted,
}: PrintedGuide['hours']): string {
  const range = lowestPrinted === highestPrinted ? lowestPrinted : `${lowestPrinted} to ${highestPrinted}`;
  if (atLeast && highest === 0) return 'hours are not known';
  return `${atLeast ? 'at least ' : ''}${range}, nine jobs in ten within ${highestAt90}; ${elapsedPrinted} on the clock`;
}
