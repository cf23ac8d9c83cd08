import { utils, write } from '@e965/xlsx';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import { sheetOf, type Cell } from './plainSheet.ts';

const header = ['Week from', 'Site', 'Item', 'Kind', 'Needed', 'Measure', 'To order', 'Order by'];
const widths = [12, 22, 30, 10, 10, 10, 10, 12];

/** What the plan takes from the shelves and what is to be ordered until when, as a workbook. */
export function suppliesWorkbook(plan: ShopPlan): Buffer {
  const rows = plan.supplies.map((row): Cell[] => [
    row.week,
    row.site,
    row.item,
    row.kind,
    row.quantity,
    row.measure,
    row.toOrder,
    row.orderBy,
  ]);
  const book = utils.book_new();
  utils.book_append_sheet(book, sheetOf([header, ...rows], widths), 'Supplies');
  return write(book, { type: 'buffer', bookType: 'xlsx' }) as Buffer;
}
