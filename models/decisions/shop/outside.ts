import { canBeSpared, weekdayOf } from './calendar.ts';
import type { DueJob } from './due-job.ts';
import { dueCostCents } from './due-cost.ts';
import type { OutsideShop, ShopSite, ShopUnit } from './resources.ts';
import type { ShopRules } from './rules.ts';

/** A way to have jobs done elsewhere. */
export interface OutsideOffer {
  /** position in the list of outside shops */
  readonly shop: number;
  readonly day: number;
  readonly costCents: number;
}

interface OutsideInput {
  readonly fromDay: number;
  readonly weeks: number;
  readonly site: ShopSite;
  readonly outside: readonly OutsideShop[];
  readonly formerDay: ReadonlyMap<string, number>;
  readonly rules: ShopRules;
}

/**
 * Cheapest outside shop and day for a set of jobs: price, downtime over the turnaround (one step for a mobile service or
 * the same day), expected lateness. The outside shop brings its own parts, so only the record's own "not before" of a job
 * that needs none binds it. Null where no shop takes all the jobs.
 */
export function cheapestOutside(
  input: OutsideInput,
  jobs: readonly DueJob[],
  unit: ShopUnit,
): OutsideOffer | null {
  const { rules } = input;
  let best: OutsideOffer | null = null;
  input.outside.forEach((shop, index) => {
    if (shop.sites !== null && !shop.sites.includes(input.site.site)) return;
    let price = 0;
    for (const job of jobs) {
      const asked = shop.priceCents[job.job];
      if (asked === undefined) return;
      price += asked;
    }
    const downShare = shop.mobile
      ? rules.downtimeStepShare
      : Math.max(rules.downtimeStepShare, shop.turnaroundDays);
    const fixed = Math.round(price + rules.setUpCents + unit.downtimeCentsPerDay * downShare);
    const last = input.fromDay + input.weeks * 7 - 1;
    for (let day = input.fromDay + shop.leadDays; day <= last; day++) {
      if (!shop.weekdays[weekdayOf(day)] || !canBeSpared(unit, day)) continue;
      let costCents = fixed;
      for (const job of jobs) {
        const former = input.formerDay.get(job.jobId);
        costCents +=
          dueCostCents(job, day, rules.dueWeights) +
          (former === undefined || former === day ? 0 : rules.moveCents);
      }
      if (best === null || costCents < best.costCents) best = { shop: index, day, costCents };
    }
  });
  return best;
}
