import type { GuideView, SectionView } from '../../../server/src/lsp/guide-view-types';
import { hoursInWords, labourInSentences, minutesInWords, ninetyInWords } from '../../words';
import { type Asking, SEVERITY, SIGN } from './asking';
import { make, type Tree } from './tree';

/** What stands at the top: what the guide is for, what was found, the hours, and the variant that is read. */
export function header(guide: GuideView, asking: Asking): Tree {
  const { labour } = guide;
  const ninety = ninetyInWords(labour);
  return make(
    'header',
    {},
    [
      make('div', { class: 'head' }, [
        make('div', { class: 'names' }, [
          make('h1', {}, [guide.title === '' ? 'A guide without a title' : guide.title]),
          make('div', { class: 'dim' }, [
            [
              guide.fits.join(', '),
              guide.revision === null ? '' : `revision ${guide.revision}`,
              `${guide.checkedSteps} of ${counted(guide.steps, 'step')} checked`,
              guide.waivers === 0 ? '' : counted(guide.waivers, 'waiver'),
            ]
              .filter((part) => part !== '')
              .join(' · '),
          ]),
          make('div', { class: 'counts' }, counts(guide)),
        ]),
        make('div', { class: 'hours' }, [
          make('b', {}, [hoursInWords(labour)]),
          make('div', { class: 'dim', title: labourInSentences(labour).slice(1).join('. ') }, [
            ninety === null ? 'labour' : `labour · 90 %: ${ninety}`,
          ]),
          make('div', { class: 'dim' }, [
            `${labour.allowance === null ? '' : `with ${labour.allowance} · `}${labour.elapsedPrinted} on the clock`,
          ]),
        ]),
      ]),
      bar(guide.sections, asking),
      choices(guide, asking),
    ],
    { key: 'header' },
  );
}

function counts({ findings: found }: GuideView): Tree[] {
  const told = (['error', 'warning', 'info'] as const).filter((severity) => found[severity] > 0);
  if (told.length === 0) return [make('span', { class: 'dim' }, ['Nothing found'])];
  return told.map((severity) =>
    make('span', { class: severity }, [
      `${SIGN[severity]} ${counted(found[severity], SEVERITY[severity].toLowerCase())}`,
    ]),
  );
}

/** The hours by section: a segment as long as its section takes, its number beneath. */
function bar(sections: readonly SectionView[], asking: Asking): Tree | null {
  if (sections.length === 0) return null;
  return make(
    'nav',
    { class: 'bar', 'aria-label': 'Labour by section' },
    sections.map((section, index) => {
      const title = `${index + 1} ${section.title}: ${minutesInWords(section)}`;
      return make(
        'button',
        { '--grow': String(Math.max(1, section.highest)), title, 'aria-label': title },
        [make('i', {}), make('span', {}, [String(index + 1)])],
        { click: () => asking.scrollTo(index + 1) },
      );
    }),
  );
}

/** One car's guide at a time: a list for each trait that may be one thing or another; what cannot be chosen is told. */
function choices(guide: GuideView, asking: Asking): Tree | null {
  const lists = guide.choices.map(({ name, values }) =>
    make(
      'label',
      {},
      [
        `${name} `,
        make(
          'select',
          { value: guide.chosen[name] ?? '' },
          [
            make('option', { value: '' }, ['any']),
            ...values.map((value) => make('option', { value }, [value])),
          ],
          { chosen: (value) => asking.choose(name, value === '' ? null : value) },
        ),
      ],
      { key: `choice-${name}` },
    ),
  );
  const choosable = new Set(guide.choices.map(({ name }) => name));
  const fixed = guide.covers.filter(({ name }) => !choosable.has(name));
  if (lists.length + fixed.length === 0) return null;
  return make('div', { class: 'covers' }, [
    ...lists,
    ...fixed.map(({ name, values }) =>
      make('span', {}, [`${name} `, make('b', {}, [values.join(' or ')])], { key: `fixed-${name}` }),
    ),
  ]);
}

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
