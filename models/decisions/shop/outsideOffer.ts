import type { DueJob, ShopInputs, ShopUnit } from './shopInputs.ts';
import { dueCostCents } from './dueCost.ts';
import { canBeSpared, weekdayOf } from './weekCalendar.ts';

/** A way to have jobs done elsewhere. */
export interface OutsideOffer {
  /** position in the list of outside shops */
  readonly shop: number;
  readonly day: number;
  /** last day away */
  readonly lastDay: number;
  readonly priceCents: number;
  readonly downtimeCents: number;
  /** price, set-up, downtime, expected lateness and earliness */
  readonly costCents: number;
}

/**
 * Cheapest outside shop and day for a set of jobs: price, downtime over the turnaround (one step of a day for a mobile
 * service), set-up, expected lateness. The shop brings its own parts; the unit must be spared on every day away.
 * @param busy days of units that other visits hold, as text `unit|day`
 * @returns null where no shop takes all the jobs. Source: common practice, no source.
 */
export function cheapestOutside(
  inputs: ShopInputs,
  jobs: readonly DueJob[],
  unit: ShopUnit,
  busy: ReadonlySet<string>,
): OutsideOffer | null {
  const { rules, fromDay } = inputs;
  const endDay = fromDay + 7 * inputs.weeks;
  let best: OutsideOffer | null = null;
  inputs.outside.forEach((shop, index) => {
    if (shop.sites !== null && !shop.sites.includes(unit.site)) return;
    let priceCents = 0;
    for (const { job } of jobs) {
      const asked = shop.priceCents[job];
      if (asked === undefined) return;
      priceCents += asked;
    }
    const away = shop.mobile ? 0 : Math.max(0, Math.ceil(shop.turnaroundDays));
    const downtimeCents = Math.round(
      unit.downtimeCentsPerDay * (shop.mobile ? rules.downtimeStepShare : away + 1),
    );
    const first = Math.max(fromDay, ...jobs.map((job) => job.notBeforeDay ?? fromDay));
    for (let day = first; day + away < endDay; day++) {
      if (!shop.weekdays[weekdayOf(day)]) continue;
      const due = jobs.reduce((sum, job) => sum + dueCostCents(job, day, rules), 0);
      const costCents = priceCents + downtimeCents + rules.setUpCents + due;
      if (best !== null && costCents >= best.costCents) continue;
      let free = true;
      for (let d = day; d <= day + away && free; d++)
        free = canBeSpared(unit, d) && !busy.has(`${unit.unitNumber}|${d}`);
      if (free) best = { shop: index, day, lastDay: day + away, priceCents, downtimeCents, costCents };
    }
  });
  return best;
}
