import { utils, type WorkSheet } from '@e965/xlsx';

/** What stands in a cell: text, a number, nothing, or a formula with its value. */
export type Cell = string | number | null | { readonly f: string; readonly v: number };

/** A sheet of cells; text is always text, so that nothing typed by people can become a formula. */
export function sheetOf(rows: readonly (readonly Cell[])[], widths: readonly number[]): WorkSheet {
  const sheet: WorkSheet = {};
  let last = 0;
  rows.forEach((row, r) =>
    row.forEach((cell, c) => {
      last = Math.max(last, c);
      if (cell === null) return;
      const place = utils.encode_cell({ r, c });
      if (typeof cell === 'string') sheet[place] = { t: 's', v: cell };
      else if (typeof cell === 'number') sheet[place] = { t: 'n', v: cell };
      else sheet[place] = { t: 'n', f: cell.f, v: cell.v };
    }),
  );
  sheet['!ref'] = utils.encode_range({ s: { r: 0, c: 0 }, e: { r: Math.max(0, rows.length - 1), c: last } });
  sheet['!cols'] = widths.map((wch) => ({ wch }));
  return sheet;
}
