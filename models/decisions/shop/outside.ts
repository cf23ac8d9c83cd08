import { weekdayOf } from './calendar.ts';
import type { DueJob } from './dueJob.ts';
import type { ShopUnit } from './resources.ts';
import type { SiteInput } from './siteInput.ts';

/** A way to have jobs done elsewhere. */
export interface OutsideOffer {
  /** position in the list of outside shops */
  readonly shop: number;
  readonly day: number;
  /** last day away */
  readonly endDay: number;
  readonly costCents: number;
}

/**
 * Cheapest outside shop and day for a set of jobs: price, downtime over the turnaround (one step for a mobile service or
 * the same day), expected lateness. The outside shop brings its own parts, so a job's own "not before" binds it, its parts
 * don't; the unit must be spared on every day away. Null where no shop takes all the jobs.
 * @param dayCosts cost by calendar day of the horizon, of each job
 * @param spare 1 where the unit can be spared, by calendar day of the horizon
 * Source: common practice, no source.
 */
export function cheapestOutside(
  input: SiteInput,
  jobs: readonly DueJob[],
  unit: ShopUnit,
  dayCosts: readonly Float64Array[],
  spare: Uint8Array,
): OutsideOffer | null {
  const { rules, fromDay } = input;
  let best: OutsideOffer | null = null;
  input.outside.forEach((shop, index) => {
    if (shop.sites !== null && !shop.sites.includes(input.site.site)) return;
    let price = 0;
    for (const job of jobs) {
      const asked = shop.priceCents[job.job];
      if (asked === undefined) return;
      price += asked;
    }
    const away = shop.mobile ? 0 : Math.max(0, Math.ceil(shop.turnaroundDays));
    const down = Math.max(rules.downtimeStepShare, shop.mobile ? 0 : shop.turnaroundDays);
    const fixed = Math.round(price + rules.setUpCents + unit.downtimeCentsPerDay * down);
    const first = Math.max(fromDay + shop.leadDays, ...jobs.map((job) => job.notBeforeDay ?? fromDay));
    for (let i = Math.max(0, Math.ceil(first) - fromDay); i + away < spare.length; i++) {
      if (!shop.weekdays[weekdayOf(fromDay + i)]) continue;
      let costCents = fixed;
      for (const costs of dayCosts) costCents += costs[i]!;
      if (best !== null && costCents >= best.costCents) continue;
      let free = true;
      for (let d = i; d <= i + away && free; d++) free = spare[d] === 1;
      if (free) best = { shop: index, day: fromDay + i, endDay: fromDay + i + away, costCents };
    }
  });
  return best;
}
