import { read, SSF, type CellObject, type WorkBook, type WorkSheet } from '@e965/xlsx';
import type { RawRow } from './csvRows.ts';
import { TableRefusedError } from './tableRefusal.ts';
import type { TableLimits } from './tableLimits.ts';

/** The rows of one sheet that hold anything, as text. */
export interface SheetRows {
  readonly sheet: string;
  readonly hidden: boolean;
  readonly rows: readonly RawRow[];
}

const two = (value: number) => String(value).padStart(2, '0');

/** A number without the noise of binary fractions. */
function plainNumber(value: number): string {
  return String(Number(value.toPrecision(15)));
}

function dateText(value: number, format: string, date1904: boolean): string | null {
  if (/\[h+\]/i.test(format)) {
    const minutes = Math.round(value * 24 * 60);
    return `${Math.floor(minutes / 60)}:${two(minutes % 60)}`;
  }
  const parts = SSF.parse_date_code(value, { date1904 }) as
    { y: number; m: number; d: number; H: number; M: number; S: number } | null | undefined;
  if (!parts || value < 0) return null;
  const time = `${two(parts.H)}:${two(parts.M)}`;
  if (value < 1) return time;
  const date = `${String(parts.y).padStart(4, '0')}-${two(parts.m)}-${two(parts.d)}`;
  return parts.H + parts.M + parts.S > 0 ? `${date} ${time}` : date;
}

/**
 * The value of a cell as text: dates as ISO, per cents with their sign, numbers with a point. A formula without a
 * stored result comes as its own text, so that it is seen; nothing is ever evaluated.
 */
function cellText(cell: CellObject, date1904: boolean): string {
  if (cell.v === undefined || cell.v === null) return cell.f !== undefined ? `=${cell.f}` : '';
  if (cell.t === 'b') return cell.v ? 'true' : 'false';
  if (cell.t === 'e') return cell.w === '#N/A' ? '' : (cell.w ?? '#ERROR');
  if (cell.t === 'n' && typeof cell.v === 'number') {
    const format = typeof cell.z === 'string' ? cell.z : '';
    if (format !== '' && format !== 'General') {
      if (SSF.is_date(format)) return dateText(cell.v, format, date1904) ?? plainNumber(cell.v);
      if (format.includes('%')) return `${plainNumber(cell.v * 100)}%`;
      if (/^0{2,}$/.test(format) && Number.isInteger(cell.v))
        return String(cell.v).padStart(format.length, '0');
    }
    return plainNumber(cell.v);
  }
  return String(cell.v);
}

/** Cells merged downwards stand for each of their rows. */
function fillMerges(sheet: WorkSheet, table: Map<number, string[]>): void {
  for (const { s, e } of sheet['!merges'] ?? []) {
    if (s.c !== e.c || e.r === s.r) continue;
    const value = table.get(s.r)?.[s.c];
    if (value === undefined || value === '') continue;
    for (let row = s.r + 1; row <= e.r; row += 1) {
      const cells = table.get(row);
      if (cells !== undefined && (cells[s.c] ?? '') === '') cells[s.c] = value;
    }
  }
}

function rowsOf(name: string, sheet: WorkSheet, date1904: boolean, limits: TableLimits): RawRow[] {
  const data = (sheet['!data'] ?? []) as (CellObject | undefined)[][];
  const table = new Map<number, string[]>();
  data.forEach((row, at) => {
    const cells: string[] = [];
    row?.forEach((cell, column) => {
      if (cell === undefined) return;
      const text = cellText(cell, date1904);
      if (text === '') return;
      if (column >= limits.maxColumns)
        throw new TableRefusedError(
          'too_many_columns',
          `Sheet ${name} has more than ${limits.maxColumns} columns: keep the columns that matter and send it again.`,
        );
      while (cells.length < column) cells.push('');
      cells[column] = text;
    });
    if (cells.length > 0) table.set(at, cells);
  });
  if (table.size > limits.maxRows)
    throw new TableRefusedError(
      'too_many_rows',
      `Sheet ${name} has more than ${limits.maxRows} rows: split it and send the parts.`,
    );
  fillMerges(sheet, table);
  return [...table].map(([at, cells]) => ({ line: at + 1, cells }));
}

/** Reads all sheets of a workbook that {@link checkWorkbookZip} passed. Throws TableRefusedError past a limit. */
export function sheetRows(bytes: Buffer, limits: TableLimits): SheetRows[] {
  let book: WorkBook;
  try {
    book = read(bytes, {
      type: 'buffer',
      dense: true,
      cellHTML: false,
      cellText: false,
      cellNF: true,
      bookVBA: false,
    });
  } catch {
    throw new TableRefusedError(
      'broken_workbook',
      'The workbook cannot be read: open it in a spreadsheet program, save it again as .xlsx and send that.',
    );
  }
  const date1904 = book.Workbook?.WBProps?.date1904 === true;
  return book.SheetNames.map((name, at) => ({
    sheet: name,
    hidden: (book.Workbook?.Sheets?.[at]?.Hidden ?? 0) !== 0,
    rows: rowsOf(name, book.Sheets[name] ?? {}, date1904, limits),
  }));
}
