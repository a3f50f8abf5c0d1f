import fc from 'fast-check';
import { expect, it } from 'vitest';
import { laneOf } from '../../client/preview/page/lane';
import type { LedgerLine } from '../../server/src/lsp/guide-view-types';

const line = (label: string, opened: string | null, closed: string | null): LedgerLine => ({
  sort: 'off',
  label,
  opened,
  closed,
  variants: null,
});
const PATHS = ['1.1', '1.2', '2.1', '2.2', '2.3'];

it('draws each line from the step that opens it to the step that closes it', () => {
  const lane = laneOf([line('wheel', '1.1', '2.2'), line('hose', '1.2', '2.1')], PATHS);
  expect(lane.columns).toBe(2);
  const told = PATHS.map((path) =>
    (lane.marks.get(path) ?? []).map(({ column, doing, line: { label } }) => `${column} ${label} ${doing}`),
  );
  expect(told).toEqual([
    ['1 wheel opens'],
    ['0 hose opens', '1 wheel runs'],
    ['0 hose closes', '1 wheel runs'],
    ['1 wheel closes'],
    [],
  ]);
});

it('a line opened before the first step comes in from above, one that is never closed runs out below', () => {
  const lane = laneOf([line('seat', null, '1.2'), line('cover', '2.3', null)], PATHS);
  expect(lane.before.map(({ label }) => label)).toEqual(['seat']);
  expect(lane.marks.get('1.1')!.map(({ doing }) => doing)).toEqual(['runs']);
  expect(lane.marks.get('2.3')!.map(({ doing }) => doing)).toEqual(['opens']);
});

it('two lines never share a place, and each keeps its column', () => {
  const paths = Array.from({ length: 30 }, (_, at) => `1.${at + 1}`);
  const stretch = fc
    .tuple(fc.integer({ min: -1, max: 29 }), fc.integer({ min: 0, max: 30 }))
    .filter(([from, to]) => from < to);
  fc.assert(
    fc.property(fc.array(stretch, { maxLength: 40 }), (stretches) => {
      const lines = stretches.map(([from, to], at) =>
        line(String(at), from < 0 ? null : paths[from]!, to === 30 ? null : paths[to]!),
      );
      const lane = laneOf(lines, paths);
      const columnOf = new Map<string, number>();
      paths.forEach((path, at) => {
        const marks = lane.marks.get(path) ?? [];
        expect(new Set(marks.map(({ column }) => column)).size).toBe(marks.length);
        const there = stretches.filter(([from, to]) => from <= at && at <= to).length;
        expect(marks.length + (lane.more.get(path) ?? 0)).toBe(there);
        for (const {
          column,
          line: { label },
        } of marks) {
          expect(column).toBeLessThan(lane.columns);
          expect(columnOf.get(label) ?? column).toBe(column);
          columnOf.set(label, column);
        }
      });
    }),
  );
});
