import { UsageError } from './io';

/** `--as-of DATE`: the day that waivers are held against; null where none is said. */
export function dayOf(written: string | undefined): string | null {
  if (written === undefined) return null;
  const date = new Date(`${written}T00:00:00Z`);
  const real =
    /^\d{4}-\d\d-\d\d$/.test(written) &&
    !Number.isNaN(date.getTime()) &&
    date.toISOString().startsWith(written);
  if (!real) throw new UsageError(`--as-of takes a day such as 2026-03-14; "${written}" is none.`);
  return written;
}
