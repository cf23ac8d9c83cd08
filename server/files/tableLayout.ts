import { looksLikeUnit, looksLikeValue } from './cellLook.ts';
import type { RawRow } from './csvRows.ts';
import type { Refused } from './tableRefusal.ts';

/** Where the table begins: the header's line and names, and how many of the first rows belong to titles and header. */
export interface TableLayout {
  readonly headerLine: number;
  readonly columns: readonly string[];
  /** rows before the first data row: titles, blank lines, header, a line of units */
  readonly rowsBefore: number;
}

/** How many rows are looked at for the header. */
export const headerSearchRows = 60;

const filled = (cells: readonly string[]) => cells.filter((cell) => cell.trim() !== '');

/** Names without line breaks and doubled blanks; an empty name stays empty. */
function nameOf(cell: string): string {
  return cell.replace(/\s+/g, ' ').trim();
}

/** Drops empty names at the right end, where the rows below hold nothing either. */
function trimmedWidth(header: readonly string[], below: readonly RawRow[]): number {
  let width = 0;
  for (const cells of [header, ...below.map((row) => row.cells)])
    for (let at = cells.length; at > width; at -= 1)
      if ((cells[at - 1] ?? '').trim() !== '') {
        width = at;
        break;
      }
  return Math.max(width, 1);
}

function scoreOf(row: RawRow, width: number, knowsHeader: (name: string) => boolean): number {
  const names = filled(row.cells).map(nameOf);
  if (names.length === 0) return -1;
  const values = names.filter(looksLikeValue).length / names.length;
  const distinct = new Set(names.map((name) => name.toLowerCase())).size / names.length;
  const known = names.filter(knowsHeader).length;
  if (values > 0.3) return -1;
  return 3 * known + Math.min(1, names.length / Math.max(1, width)) + distinct - 3 * values;
}

/**
 * Finds the row of column names among the first rows: below titles and blank lines, the row that names most of the
 * columns, knows most names and holds no values. A line of units right below is added to the names in brackets.
 * @param rows the first rows of the sheet
 * @param knowsHeader tells whether a name is a known column
 */
export function findLayout(
  rows: readonly RawRow[],
  knowsHeader: (name: string) => boolean,
): TableLayout | Refused {
  const counts = rows.map((row) => filled(row.cells).length);
  if (counts.every((count) => count === 0))
    return { refused: 'empty', message: 'The table is empty: it holds no text at all.' };
  const width = Math.max(...counts);
  let best = -1;
  let bestScore = 0;
  rows.slice(0, headerSearchRows).forEach((row, at) => {
    const count = counts[at] ?? 0;
    if (count < Math.min(2, width) || count < 0.4 * width) return;
    const score = scoreOf(row, width, knowsHeader);
    if (score > bestScore + 1e-9) {
      best = at;
      bestScore = score;
    }
  });
  const header = rows[best];
  const firstFilled = counts.findIndex((count) => count >= Math.min(2, width));
  // A heading row far below rows of values would throw those away unseen.
  const valuesAbove = rows
    .slice(0, Math.max(best, 0))
    .some((row) => filled(row.cells).filter((cell) => looksLikeValue(cell.trim())).length >= 3);
  if (header === undefined || (valuesAbove && firstFilled < best))
    return {
      refused: 'no_header',
      message: `No row of column names was found (line ${rows[Math.max(firstFilled, 0)]?.line ?? 1} already holds values): put the names of the columns above the rows and send the file again.`,
    };
  const next = rows[best + 1];
  const units =
    next !== undefined &&
    filled(next.cells).length > 0 &&
    filled(next.cells).every((cell) => looksLikeUnit(cell.trim()));
  const below = rows.slice(best + (units ? 2 : 1));
  const columns = header.cells.slice(0, trimmedWidth(header.cells, below)).map((cell, at) => {
    const unit = units ? nameOf(next.cells[at] ?? '').replace(/^[[(]\s*|\s*[\])]$/g, '') : '';
    return unit === '' || unit === '-' ? nameOf(cell) : `${nameOf(cell)} (${unit})`;
  });
  return { headerLine: header.line, columns, rowsBefore: best + (units ? 2 : 1) };
}
