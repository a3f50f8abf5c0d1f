import { localDay } from '../server/src/workspace/today';

/** The same day of the next year; the last of February where that year has no such day. */
export function yearAfter(date: Date): string {
  const next = new Date(date.getFullYear() + 1, date.getMonth(), date.getDate());
  return localDay(
    next.getMonth() === date.getMonth() ? next : new Date(next.getFullYear(), next.getMonth(), 0),
  );
}

/** Whether a text is a day of the calendar, and not over yet. */
export function isComingDay(text: string, today: Date): boolean {
  const match = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (match === null) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  return localDay(new Date(year, month - 1, day)) === text && text >= localDay(today);
}
