import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { staying } from '../../server/src/review/least-moves';

describe('the fewest moves', () => {
  it('leave a row in order alone', () => {
    expect(staying([2, 5, 9]).size).toBe(3);
    expect(staying([]).size).toBe(0);
  });

  it('move one thing where one went to another place', () => {
    expect([...staying([0, 2, 3, 4, 1])].sort()).toEqual([0, 1, 2, 3]);
  });

  it('move the lighter of two that changed places', () => {
    expect([...staying([1, 0], (index) => (index === 0 ? 2 : 1))]).toEqual([0]);
    expect([...staying([1, 0], (index) => (index === 0 ? 1 : 2))]).toEqual([1]);
  });

  it('are as few as trying all of them finds, and what stays is in order', () => {
    const rows = fc.uniqueArray(fc.nat(60), { maxLength: 9 });
    fc.assert(
      fc.property(rows, (row) => {
        const kept = [...staying(row)].sort((a, b) => a - b);
        const places = kept.map((index) => row[index]!);
        expect(places).toEqual([...places].sort((a, b) => a - b));
        expect(kept.length).toBe(longest(row));
      }),
    );
  });
});

/** The longest rising run, by trying every choice. */
function longest(row: readonly number[]): number {
  let most = 0;
  for (let choice = 0; choice < 1 << row.length; choice++) {
    const taken = row.filter((_, index) => (choice >> index) & 1);
    if (taken.every((one, index) => index === 0 || taken[index - 1]! < one))
      most = Math.max(most, taken.length);
  }
  return most;
}
