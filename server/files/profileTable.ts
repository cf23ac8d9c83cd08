import type { ColumnProfile } from '../../models/schema/intake.ts';
import { danfo } from './danfo.ts';
import { openTable } from './readTable.ts';
import { isRefused, type Refused } from './tableRefusal.ts';

const sampleRows = 2000;

/**
 * Profile of a sample of a file's first table, made with danfo.js: type, missing, distinct, extremes and mean of each
 * column, cells as they stand in the file.
 */
export async function profileTable(
  path: string,
): Promise<{ rows: number; columns: ColumnProfile[] } | Refused> {
  const opened = await openTable(path);
  if (isRefused(opened)) return opened;
  const [table] = opened.sheets;
  const rows: string[][] = [];
  for await (const batch of table.rows()) {
    for (const row of batch)
      if (row.skip === null && row.fault === null && rows.length < sampleRows) rows.push(row.cells);
    if (rows.length >= sampleRows) break;
  }
  const { Series } = await danfo();
  const columns = table.columns.map((column, at): ColumnProfile => {
    const cells = rows.map((cells) => cells[at] ?? '').filter((cell) => cell !== '');
    const numbers = cells.map((cell) =>
      /^[+-]?\d+([.,]\d+)?$/.test(cell) ? Number(cell.replace(',', '.')) : Number.NaN,
    );
    const numeric = cells.length > 0 && numbers.every((value) => Number.isFinite(value));
    const dates = cells.length > 0 && cells.every((cell) => /^\d{4}-\d{2}-\d{2}/.test(cell));
    const missing = rows.length - cells.length;
    if (numeric) {
      const series = new Series(numbers);
      return {
        column,
        type: 'number',
        missing,
        distinct: series.nUnique(),
        lowest: series.min(),
        highest: series.max(),
        mean: series.mean(),
      };
    }
    const sorted = [...cells].sort();
    return {
      column,
      type: cells.length === 0 ? 'empty' : dates ? 'date' : 'text',
      missing,
      distinct: cells.length === 0 ? 0 : new Series(cells).nUnique(),
      lowest: dates ? sorted[0] : null,
      highest: dates ? sorted[sorted.length - 1] : null,
      mean: null,
    };
  });
  return { rows: rows.length, columns };
}
