/**
 * Rows as CSV text (RFC 4180) that a spreadsheet can't take for formulas: a cell that begins with = + - @ or a control
 * character gets an apostrophe in front, unless it is a plain number.
 */
export function safeCsv(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => row.map(safeCell).join(',')).join('\r\n') + '\r\n';
}

function safeCell(text: string): string {
  const guarded = /^[=+\-@\t\r]/.test(text) && !/^[+-]?\d+([.,]\d+)?$/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
