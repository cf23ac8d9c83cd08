import { utils, write, type WorkSheet } from '@e965/xlsx';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';

const header = ['Week from', 'Site', 'Item', 'Kind', 'Needed', 'Measure', 'To order', 'Order by'];

/** Plain cells only: text stays text, so that no item's name can become a formula. */
function sheetOf(plan: ShopPlan): WorkSheet {
  const sheet: WorkSheet = {};
  const rows = plan.supplies.map((row) => [
    row.week,
    row.site,
    row.item,
    row.kind,
    row.quantity,
    row.measure,
    row.toOrder,
    row.orderBy ?? '',
  ]);
  [header, ...rows].forEach((row, r) =>
    row.forEach((cell, c) => {
      sheet[utils.encode_cell({ r, c })] =
        typeof cell === 'number' ? { t: 'n', v: cell } : { t: 's', v: cell };
    }),
  );
  sheet['!ref'] = utils.encode_range({ s: { r: 0, c: 0 }, e: { r: rows.length, c: header.length - 1 } });
  sheet['!cols'] = [12, 22, 30, 10, 10, 10, 10, 12].map((wch) => ({ wch }));
  return sheet;
}

/** What the plan takes from the shelves and what is to be ordered until when, as a workbook. */
export function suppliesWorkbook(plan: ShopPlan): Buffer {
  const book = utils.book_new();
  utils.book_append_sheet(book, sheetOf(plan), 'Supplies');
  return write(book, { type: 'buffer', bookType: 'xlsx' }) as Buffer;
}
