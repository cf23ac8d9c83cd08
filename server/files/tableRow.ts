import { looksLikeRemark, looksLikeTotals } from './cellLook.ts';
import type { RawRow } from './csvRows.ts';

/** Why a physical row is no record: told, never silently dropped. */
export type SkipReason = 'header_again' | 'totals' | 'remark';

/** Why the cells of a row cannot be trusted to stand in their columns. */
export type RowFault = 'too_many_cells' | 'row_cut_off' | 'quote_swallowed_rows';

/** One physical row below the header. */
export interface TableRow {
  readonly line: number;
  /** as many as there are columns, trimmed; a surplus is kept at the end when `fault` says so */
  readonly cells: string[];
  readonly skip: SkipReason | null;
  readonly fault: RowFault | null;
}

const sameName = (a: string, b: string) => a.toLowerCase() === b.toLowerCase();

/** A quote that was never meant as one joins several lines: the cell then holds whole rows. */
function holdsRows(cell: string, separator: string, columns: number): boolean {
  return cell.split('\n').some((line) => line.split(separator).length >= Math.max(3, columns - 1));
}

/**
 * Makes the judge of physical rows of one table; null stands for a blank row.
 * @param columns the names in the header
 * @param separator of a text file, or null for a sheet
 */
export function rowJudge(
  columns: readonly string[],
  separator: string | null,
): (row: RawRow, isCutOff: boolean) => TableRow | null {
  const width = columns.length;
  const firstName = columns.find((name) => name !== '') ?? '';
  const firstAt = columns.indexOf(firstName);
  const bareNames = columns.map((name) => name.replace(/ \([^()]*\)$/, ''));

  const skipOf = (cells: readonly string[]): SkipReason | null => {
    let filledCells = 0;
    for (const cell of cells) if (cell !== '') filledCells += 1;
    const lead = cells.find((cell) => cell !== '') ?? '';
    if (
      sameName(cells[firstAt] ?? '', firstName) ||
      sameName(cells[firstAt] ?? '', bareNames[firstAt] ?? '')
    ) {
      const same = cells.filter(
        (cell, at) =>
          cell !== '' && (sameName(cell, columns[at] ?? '') || sameName(cell, bareNames[at] ?? '')),
      ).length;
      if (same >= 0.7 * filledCells && (same > 1 || width === 1)) return 'header_again';
    }
    if (filledCells <= 0.75 * width && looksLikeTotals(lead)) return 'totals';
    if (filledCells === 1 && width >= 4 && looksLikeRemark(lead)) return 'remark';
    return null;
  };

  return (row, isCutOff) => {
    const { line } = row;
    const cells = row.cells;
    let blank = true;
    for (let at = 0; at < cells.length; at += 1) {
      const cell = (cells[at] ?? '').trim();
      cells[at] = cell;
      if (cell !== '') blank = false;
    }
    if (blank) return null;
    let fault: RowFault | null = null;
    const given = cells.length;
    while (cells.length > width && cells[cells.length - 1] === '') cells.pop();
    if (cells.length > width) fault = 'too_many_cells';
    else if (isCutOff && given < width) fault = 'row_cut_off';
    while (cells.length < width) cells.push('');
    if (separator !== null)
      for (const cell of cells)
        if (cell.includes('\n') && holdsRows(cell, separator, width)) fault = 'quote_swallowed_rows';
    return { line, cells, skip: skipOf(cells), fault };
  };
}
