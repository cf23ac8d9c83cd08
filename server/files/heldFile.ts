import { writeFileSync } from 'node:fs';
import type { HeldRow } from '../../models/schema/intake.ts';
import { csvRowText, csvText } from '../../models/intake/csvText.ts';

/** Writes held rows as CSV: file, line, code, message, and the row's own text. */
export function writeHeldFile(path: string, rows: readonly HeldRow[]): void {
  const lines = rows.map((row) => [row.file, row.line, row.code, row.message, csvRowText(row.cells)]);
  writeFileSync(path, csvText(['file', 'line', 'code', 'message', 'row'], lines));
}
