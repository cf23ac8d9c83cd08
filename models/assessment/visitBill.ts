import type { Engine } from '../schema/engine.ts';
import type { PlanItem, ShopJob } from '../schema/shopPlan.ts';

/** What a visit is planned to be. */
export interface BilledVisit {
  readonly jobs: readonly { readonly job: ShopJob; readonly items: readonly PlanItem[] }[];
  /** in the bay, set-up included, h */
  readonly hours: number;
}

/** What a visit will cost in labour, parts and oil. */
export interface VisitBill {
  /** null = not known */
  readonly cents: number | null;
  /** what has no price on record, in words */
  readonly missing: readonly string[];
}

/**
 * The bill that a planned visit should come to: labour at the site's rate, oil and parts at the prices of the stock records;
 * the parts of a renewed timing drive as its engine family has them, where it does. One-time bolts and seals without a
 * price are small and left out; anything else without one makes the bill not known.
 * @param labourCentsPerHour cents/h, 0 or more
 * @param unitCostCents price of an item at the site, cents a litre or piece; null = not on record
 * @returns whole cents
 * @example 0.75 h at 95.00 with 5 l at 5.20 and a filter at 9.50 → 71.25 + 26.00 + 9.50 = 106.75
 */
export function visitBill(
  { jobs, hours }: BilledVisit,
  labourCentsPerHour: number,
  engine: Pick<Engine, 'plannedPartsCostCents'> | null,
  unitCostCents: (item: string) => number | null,
): VisitBill {
  const missing: string[] = [];
  let cents = hours * labourCentsPerHour;
  for (const { job, items } of jobs) {
    const set = job === 'timing_set' ? (engine?.plannedPartsCostCents ?? null) : null;
    cents += set ?? 0;
    for (const { item, kind, quantity } of items) {
      // the family's parts cost holds the whole set; oil and filter come on top
      if (set !== null && (kind === 'kit' || kind === 'one_time')) continue;
      const price = unitCostCents(item);
      if (price !== null) cents += quantity * price;
      else if (kind !== 'one_time') missing.push(item);
    }
  }
  return { cents: missing.length > 0 ? null : Math.round(cents), missing: [...new Set(missing)] };
}
