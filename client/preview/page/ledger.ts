import type { LedgerLine } from '../../../server/src/lsp/guide-view-types';
import type { Lane } from './lane';
import { make, type Tree } from './tree';

/** What the way a line is drawn stands for. */
const SORTS: Readonly<Record<LedgerLine['sort'], string>> = {
  raised: 'raised',
  aid: 'held or on an aid',
  loose: 'loose',
  off: 'off',
  apart: 'disconnected or unclipped',
  stopped: 'shut off or empty',
  unfinished: 'unfinished',
};

const named = ({ label, variants }: LedgerLine): string =>
  variants === null ? label : `${label}, ${variants}`;

const fromTo = ({ opened, closed }: LedgerLine): string =>
  `${opened === null ? 'open before the first step' : `from step ${opened}`}, ${closed === null ? 'open at the end' : `to step ${closed}`}`;

/** The lines beside a step. What they say stands in words in the step itself. */
export function laneCell(lane: Lane, path: string): Tree {
  const marks = lane.marks.get(path) ?? [];
  const more = lane.more.get(path) ?? 0;
  return make('div', { class: 'lane', 'aria-hidden': 'true' }, [
    ...marks.map(({ column, doing, line }) =>
      make('i', {
        class: `${line.sort} ${doing}`,
        '--at': String(column),
        title: `${named(line)} (${fromTo(line)})`,
      }),
    ),
    more === 0 ? null : make('span', { class: 'more' }, [`+${more}`]),
  ]);
}

/** The lines that go on from the step before to a step, beside what stands between them. */
export function passingCell(lane: Lane, path: string | undefined): Tree {
  const marks = (path === undefined ? undefined : lane.marks.get(path)) ?? [];
  return make(
    'div',
    { class: 'lane', 'aria-hidden': 'true' },
    marks
      .filter(({ doing }) => doing === 'runs' || doing === 'closes')
      .map(({ column, line }) => make('i', { class: `${line.sort} runs`, '--at': String(column) })),
  );
}

/** What a step opens and what it closes, in words. */
export function openAndShut(lane: Lane, path: string): Tree | null {
  const marks = lane.marks.get(path) ?? [];
  const opens = marks.filter(
    ({ doing, line }) => (doing === 'opens' || doing === 'both') && line.opened === path,
  );
  const closes = marks.filter(
    ({ doing, line }) => (doing === 'closes' || doing === 'both') && line.closed === path,
  );
  if (opens.length + closes.length === 0) return null;
  const told = (word: string, lines: typeof marks): Tree | null =>
    lines.length === 0
      ? null
      : make('div', { class: word }, [
          make('b', {}, [word]),
          ` ${lines.map(({ line }) => named(line)).join(' · ')}`,
        ]);
  return make('div', { class: 'account' }, [told('opens', opens), told('closes', closes)]);
}

/** What another guide, or the car as it comes, leaves open for this one. */
export function openBefore(lines: readonly LedgerLine[]): Tree | null {
  if (lines.length === 0) return null;
  const told = lines.map(named).join(' · ');
  return make('p', { class: 'account' }, [make('b', {}, ['Open before the first step']), ` ${told}`], {
    key: 'before',
  });
}

/** What is open at the end of the guide: handed over so, or forgotten. */
export function atTheEnd(lines: readonly LedgerLine[]): Tree | null {
  const left = lines.filter(({ closed }) => closed === null);
  if (left.length === 0) return null;
  return make(
    'section',
    { class: 'left', 'aria-label': 'Open at the end' },
    [
      make('h2', {}, ['Open at the end']),
      make(
        'ul',
        {},
        left.map((line) => make('li', {}, [`${named(line)} (${fromTo(line).split(',')[0]})`])),
      ),
    ],
    { key: 'left' },
  );
}

/** How to read the lines: the sorts that this guide has. */
export function legend(lines: readonly LedgerLine[]): Tree {
  const there = new Set(lines.map(({ sort }) => sort));
  const sorts = (Object.keys(SORTS) as LedgerLine['sort'][]).filter((sort) => there.has(sort));
  return make('div', { class: 'legend' }, [
    'At the left each line is something open: from the ring, where a step opens it, to the bar, where a step closes it.',
    make(
      'ul',
      {},
      sorts.map((sort) =>
        make('li', {}, [
          make('span', { class: 'lane', 'aria-hidden': 'true' }, [
            make('i', { class: `${sort} runs`, '--at': '0' }),
          ]),
          SORTS[sort],
        ]),
      ),
    ),
  ]);
}
