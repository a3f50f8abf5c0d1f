import type {
  FindingView,
  GuideView,
  SectionView,
  StepView,
  Words,
} from '../../../server/src/lsp/guide-view-types';
import { hoursInWords, minutesInWords, runningInWords } from '../../words';
import type { Spot } from '../messages';
import { make, type Tree } from './tree';

/** What the page can be asked for by a click. */
export interface Asking {
  open(spot: Spot): void;
  scrollTo(section: number): void;
}

const SEVERITY = { error: 'Error', warning: 'Warning', info: 'Note' } as const;
const SIGN = { error: '✕', warning: '▲', info: '●' } as const;

/** Signal words that look other than the rest; each is written out beside its frame. */
const SIGNALS = new Set(['danger', 'notice']);

/** The page of a guide. */
export function guidePage(guide: GuideView, asking: Asking): Tree[] {
  return [
    header(guide, asking),
    make(
      'main',
      {},
      [
        guide.elsewhere.length === 0
          ? null
          : make('div', { class: 'elsewhere' }, findings(guide.elsewhere, asking), { key: 'elsewhere' }),
        ...guide.sections.map((section, index) => sectionPage(section, index + 1, asking)),
      ],
      { key: 'main' },
    ),
    make(
      'footer',
      {},
      [
        'Kitproof reads what is written and certifies nothing: the vehicle maker’s data, local rules and a qualified person come first.',
      ],
      { key: 'footer' },
    ),
  ];
}

/** The page where there is no guide. */
export function emptyPage(text: string): Tree[] {
  return [make('p', { class: 'empty' }, [text])];
}

function header(guide: GuideView, asking: Asking): Tree {
  const { labour } = guide;
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
            ]
              .filter((part) => part !== '')
              .join(' · '),
          ]),
          make('div', { class: 'counts' }, counts(guide)),
        ]),
        make('div', { class: 'hours' }, [
          make('b', {}, [hoursInWords(labour)]),
          make('div', { class: 'dim' }, [`labour · ${labour.elapsedPrinted} on the clock`]),
        ]),
      ]),
      bar(guide.sections, asking),
      guide.covers.length === 0
        ? null
        : make(
            'div',
            { class: 'covers' },
            guide.covers.map(({ name, values }) =>
              make('span', {}, [`${name} `, make('b', {}, [values.join(' or ')])]),
            ),
          ),
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
        { grow: String(Math.max(1, section.highest)), title, 'aria-label': title },
        [make('i', {}), make('span', {}, [String(index + 1)])],
        { click: () => asking.scrollTo(index + 1) },
      );
    }),
  );
}

function sectionPage(section: SectionView, number: number, asking: Asking): Tree {
  return make(
    'section',
    { id: `section-${number}` },
    [
      make('h2', {}, [
        make('span', {}, [`${number}  ${section.title}`]),
        make('span', { class: 'dim' }, [minutesInWords(section)]),
      ]),
      ...section.steps.map((step) => stepPage(step, asking)),
    ],
    { key: `section-${number}` },
  );
}

function stepPage(step: StepView, asking: Asking): Tree {
  const { path, uri, range } = step;
  const { line, character } = range.start;
  const people = step.people > 1 ? `, ${step.people} people` : '';
  const marks = [
    step.when === null ? '' : `with ${step.when}`,
    step.optional ? 'if wanted' : '',
    step.draft ? 'draft' : '',
  ].filter((mark) => mark !== '');
  return make(
    'article',
    { class: 'step', id: `step-${path}` },
    [
      ...step.cautions.map(({ signal, text }) =>
        make('div', { class: `caution ${SIGNALS.has(signal) ? signal : ''}` }, [
          make('b', {}, [signal.toUpperCase()]),
          make('span', {}, words(text)),
        ]),
      ),
      make(
        'button',
        { class: 'no', title: `Go to step ${path} in the text` },
        [path.replaceAll('/', ' › ')],
        { click: () => asking.open({ uri, line, character }) },
      ),
      make('div', { class: 'body' }, [
        make('p', {}, [...words(step.text), ...marks.map((mark) => make('span', { class: 'when' }, [mark]))]),
        step.operations.length === 0 ? null : make('div', { class: 'ops' }, [step.operations.join(' · ')]),
        ...findings(step.findings, asking),
      ]),
      make('div', { class: 'time' }, [
        make('div', {}, [minutesInWords(step.labour) + people]),
        make('div', { class: 'dim', title: 'Labour from the start to the end of this step' }, [
          runningInWords(step.running),
        ]),
      ]),
    ],
    { key: `step-${path}` },
  );
}

function findings(found: readonly FindingView[], asking: Asking): Tree[] {
  return found.map(({ severity, message, variants, rule, uri, range }) => {
    const { line, character } = range.start;
    return make('div', { class: `finding ${severity}` }, [
      make('b', {}, [`${SIGN[severity]} ${SEVERITY[severity]}`]),
      ` ${message} `,
      variants === null ? null : make('span', { class: 'dim' }, [`${variants} `]),
      make('button', { class: 'rule', title: 'Go to this in the text' }, [rule], {
        click: () => asking.open({ uri, line, character }),
      }),
    ]);
  });
}

const words = (text: readonly Words[]): Tree[] =>
  text.map(({ text: said, kind }) =>
    kind === 'plain' ? said : make('span', { class: `said ${kind}` }, [said]),
  );

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
