/** The day of the calendar where the program runs, as documents write it: `2026-03-14`. */
export function localDay(date: Date): string {
  const two = (figure: number) => String(figure).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
