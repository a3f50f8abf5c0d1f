import type {
  FindingView,
  GuideView,
  LedgerView,
  SectionView,
  StepView,
  WaiverView,
  Words,
} from '../../../server/src/lsp/guide-view-types';
import { minutesInWords, runningInWords } from '../../words';
import { type Asking, SEVERITY, SIGN } from './asking';
import { header } from './header';
import { type Lane, laneOf } from './lane';
import { atTheEnd, laneCell, legend, openAndShut, openBefore, passingCell } from './ledger';
import { type Branch, make, type Remembered, type Tree } from './tree';

/** Signal words that look other than the rest; each is written out beside its frame. */
const SIGNALS = new Set(['danger', 'notice']);

/** The page of a guide; without a ledger until that is known. */
export function guidePage(
  guide: GuideView,
  ledger: LedgerView | null,
  asking: Asking,
  remembered: Remembered,
): Tree[] {
  const paths = guide.sections.flatMap(({ steps }) => steps.map(({ path }) => path));
  const lane = laneOf(ledger?.lines ?? [], paths);
  return [
    header(guide, asking),
    make(
      'main',
      { '--columns': String(lane.columns) },
      [
        guide.elsewhere.length === 0
          ? null
          : make('div', { class: 'elsewhere' }, findings(guide.elsewhere, asking), { key: 'elsewhere' }),
        openBefore(lane.before),
        ...guide.sections.map((section, index) =>
          sectionPage(section, index + 1, lane, (step) => {
            const { path } = step;
            const open = ledger?.open[path] ?? 0;
            const from = JSON.stringify([
              step,
              lane.columns,
              lane.marks.get(path),
              lane.more.get(path),
              open,
            ]);
            return remembered.get(path, from, () => stepPage(step, lane, open, asking));
          }),
        ),
        ledger === null ? null : atTheEnd(ledger.lines),
      ],
      { key: 'main' },
    ),
    make(
      'footer',
      {},
      [
        lane.columns === 0 ? null : legend(ledger?.lines ?? []),
        make('p', {}, [
          'Kitproof reads what is written and certifies nothing: the vehicle maker’s data, local rules and a qualified person come first.',
        ]),
      ],
      { key: 'footer' },
    ),
  ];
}

/** The page where there is no guide. */
export function emptyPage(text: string): Tree[] {
  return [make('p', { class: 'empty' }, [text])];
}

function sectionPage(section: SectionView, number: number, lane: Lane, page: (step: StepView) => Tree): Tree {
  return make(
    'section',
    { id: `section-${number}`, 'aria-label': section.title },
    [
      make('div', { class: 'heading' }, [
        passingCell(lane, section.steps[0]?.path),
        make('h2', {}, [`${number}  ${section.title}`]),
        make('span', { class: 'dim' }, [minutesInWords(section)]),
      ]),
      ...section.steps.map(page),
    ],
    { key: `section-${number}` },
  );
}

function stepPage(step: StepView, lane: Lane, open: number, asking: Asking): Branch {
  const { path, uri, range } = step;
  const { line, character } = range.start;
  const people = step.people > 1 ? `, ${step.people} people` : '';
  const go = () => asking.open({ uri, line, character });
  const marks = [
    step.when === null ? '' : `with ${step.when}`,
    step.optional ? 'if wanted' : '',
    step.draft ? 'draft' : '',
  ].filter((mark) => mark !== '');
  return make(
    'article',
    { class: step.draft ? 'step draft' : 'step', id: `step-${path}` },
    [
      laneCell(lane, path),
      step.cautions.length === 0 ? null : make('div', { class: 'cautions' }, step.cautions.map(caution)),
      make(
        'button',
        { class: 'no', title: `Go to step ${path} in the text` },
        [path.replaceAll('/', ' › ')],
        {
          click: go,
        },
      ),
      make('div', { class: 'body' }, [
        make(
          'p',
          {},
          [...words(step.text), ...marks.map((mark) => make('span', { class: 'when' }, [mark]))],
          {
            // A click that ends a selection of words is none.
            click: () => document.getSelection()?.isCollapsed !== false && go(),
          },
        ),
        step.operations.length === 0 ? null : make('div', { class: 'ops' }, [step.operations.join(' · ')]),
        openAndShut(lane, path),
        ...findings(step.findings, asking),
        ...step.waivers.map(waiver),
      ]),
      make('div', { class: 'time' }, [
        make('div', {}, [minutesInWords(step.labour) + people]),
        make('div', { class: 'dim', title: 'Labour from the start to the end of this step' }, [
          runningInWords(step.running),
        ]),
        open === 0 ? null : make('div', { class: 'dim' }, [`${open} open`]),
      ]),
    ],
    { key: `step-${path}` },
  );
}

const caution = ({ signal, text }: StepView['cautions'][number]): Tree =>
  make('div', { class: `caution ${SIGNALS.has(signal) ? signal : ''}` }, [
    make('b', {}, [signal.toUpperCase()]),
    make('span', {}, words(text)),
  ]);

const waiver = ({ rule, because, by, until }: WaiverView): Tree =>
  make('div', { class: 'waiver' }, [
    make('b', {}, ['Waived']),
    ` ${rule}: ${because} `,
    make('span', { class: 'dim' }, [`${by}, until ${until}`]),
  ]);

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
