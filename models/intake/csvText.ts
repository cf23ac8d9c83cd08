/**
 * Spreadsheet programs run a cell that begins with =, +, -, @, a tab or a line end as a formula. Such text gets an
 * apostrophe in front, which they show as plain text; plain numbers stay as they are.
 */
const runsAsFormula = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;
const plainNumber = /^[+-]?\d+([.,]\d+)?$/;

/** Text as a spreadsheet shows it and never runs it. */
export function inertText(text: string): string {
  return runsAsFormula.test(text) && !plainNumber.test(text) ? `'${text}` : text;
}

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** One cell of a CSV file that we write: inert, quoted where needed; null is empty. */
export function csvCell(value: string | number | null | undefined): string {
  if (value === null || value === undefined) return '';
  return quoted(typeof value === 'number' ? String(value) : inertText(value));
}

/** One row of cells as they stand, quoted where needed; for text that goes into a cell of its own. */
export function csvRowText(cells: readonly string[]): string {
  return cells.map(quoted).join(',');
}

/** A whole CSV file; every export of the program is written by this. */
export function csvText(
  header: readonly string[],
  rows: readonly (readonly (string | number | null | undefined)[])[],
): string {
  return `${[header, ...rows].map((row) => row.map(csvCell).join(',')).join('\n')}\n`;
}
