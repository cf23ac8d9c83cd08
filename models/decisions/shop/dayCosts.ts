import { canBeSpared, spanHolds } from './calendar.ts';
import { dueCostCents } from './dueCost.ts';
import type { DueJob } from './dueJob.ts';
import type { ShopUnit } from './resources.ts';
import type { SiteInput } from './siteInput.ts';

/** Expected lateness and earliness of a job on each calendar day of the horizon, with what moving it costs, cents. */
export function jobDayCosts(input: SiteInput, job: DueJob): Float64Array {
  const { fromDay, weeks, rules } = input;
  const former = input.former.get(job.jobId)?.day;
  const costs = new Float64Array(weeks * 7);
  for (let i = 0; i < costs.length; i++) {
    const moved = former !== undefined && former !== fromDay + i ? rules.moveCents : 0;
    costs[i] = dueCostCents(job, fromDay + i, rules.dueWeights) + moved;
  }
  return costs;
}

/** 1 for each calendar day of the horizon on which the unit can come: no blackout, not in the shop by a locked visit. */
export function spareDays(input: SiteInput, unit: ShopUnit): Uint8Array {
  const busy = input.locked.filter((slot) => slot.unitNumber === unit.unitNumber).map((slot) => slot.span);
  const spare = new Uint8Array(input.weeks * 7);
  for (let i = 0; i < spare.length; i++) {
    const day = input.fromDay + i;
    spare[i] = canBeSpared(unit, day) && !spanHolds(busy, day) ? 1 : 0;
  }
  return spare;
}
