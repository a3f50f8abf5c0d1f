import { expect, it } from 'vitest';
import { Restarts } from '../../client/restarts';

const MINUTE = 60_000;

it('a server that dies is started again, four times in five minutes', () => {
  const restarts = new Restarts();
  for (let crash = 0; crash < 4; crash++) expect(restarts.crashed(crash * 1000)).toBe(true);
  expect(restarts.crashed(4000)).toBe(false);
});

it('crashes that are long past do not count', () => {
  const restarts = new Restarts();
  for (let crash = 0; crash < 20; crash++) expect(restarts.crashed(crash * 2 * MINUTE)).toBe(true);
});

it('whoever asks for the server gives it all its tries again', () => {
  const restarts = new Restarts();
  for (let crash = 0; crash < 5; crash++) restarts.crashed(0);
  restarts.forget();
  expect(restarts.crashed(0)).toBe(true);
});
