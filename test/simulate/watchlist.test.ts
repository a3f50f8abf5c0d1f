import { expect, test } from 'vitest';
import { Watchlist } from '../../server/src/simulate/watchlist';

test('names those that have the value looked for, in order, as they change', () => {
  const values = ['out', 'tight', 'tight', 'out'];
  const list = new Watchlist(values.length, (place) => values[place] === 'out');
  expect(list.now()).toEqual([0, 3]);
  values[1] = 'out';
  list.stir(1);
  values[3] = 'tight';
  list.stir(3);
  expect(list.now()).toEqual([0, 1]);
});

test('looks again only at what changed', () => {
  const looked: number[] = [];
  const list = new Watchlist(100, (place) => {
    looked.push(place);
    return place < 2;
  });
  list.now();
  looked.length = 0;
  list.stir(7);
  list.stir(7);
  expect(list.now()).toEqual([0, 1]);
  expect(looked).toEqual([7]);
});
