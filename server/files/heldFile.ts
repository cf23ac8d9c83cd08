import { writeFileSync } from 'node:fs';
import type { HeldRow } from '../../models/schema/intake.ts';

const cell = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Writes held rows as CSV: file, line, code, message, and the row's own text. */
export function writeHeldFile(path: string, rows: readonly HeldRow[]): void {
  const lines = rows.map((row) =>
    [row.file, String(row.line), row.code, row.message, row.cells.map(cell).join(',')].map(cell).join(','),
  );
  writeFileSync(path, `${['file,line,code,message,row', ...lines].join('\n')}\n`);
}
