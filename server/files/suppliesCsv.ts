import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import { csvText } from '../../models/intake/csvText.ts';

/** What the plan takes from the shelves, by week and site, with what is to be ordered until when. */
export function suppliesCsv(plan: ShopPlan): string {
  const header = ['week', 'site', 'item', 'kind', 'quantity', 'measure', 'to_order', 'order_by'];
  return csvText(
    header,
    plan.supplies.map((row) => [
      row.week,
      row.site,
      row.item,
      row.kind,
      row.quantity,
      row.measure,
      row.toOrder,
      row.orderBy,
    ]),
  );
}
