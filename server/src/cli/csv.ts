/** A cell of a table for spreadsheets. */
export type Field = string | number | null;

/** A table for spreadsheets by RFC 4180: lines that end with CR and LF, fields in quotes where they need them. */
export const csvText = (rows: readonly (readonly Field[])[]): string =>
  rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');

/** A text that a spreadsheet would take for a formula begins with an apostrophe, which shows it as the text that it is. */
function field(value: Field): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = /^\s*[=+\-@|%＝＋－＠]|^[\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
