import { expect, it } from 'vitest';
import { isComingDay, yearAfter } from '../../client/days';

it('the day a year on is one of the calendar', () => {
  expect(yearAfter(new Date(2026, 10, 30))).toBe('2027-11-30');
  expect(yearAfter(new Date(2028, 1, 29))).toBe('2029-02-28');
});

it('a day counts where it is one, and is still to come', () => {
  const today = new Date(2026, 10, 30, 23, 59);
  for (const day of ['2026-11-30', '2031-04-30', '2028-02-29'])
    expect(isComingDay(day, today), day).toBe(true);
  for (const day of ['2026-11-29', '2027-02-29', '2027-13-01', '30.4.2031', '', 'tomorrow'])
    expect(isComingDay(day, today), day).toBe(false);
});
