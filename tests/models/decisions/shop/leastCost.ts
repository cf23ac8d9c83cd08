import fc from 'fast-check';
import { dueCostCents } from '../../../../models/decisions/shop/dueCost.ts';
import type { ShopInputs } from '../../../../models/decisions/shop/shopInputs.ts';
import { undoneCents } from '../../../../models/decisions/shop/visitCost.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

/** Least cost over every way to give each unit's one job a day of one lane of 8 h, or to leave it. */
export function leastCost(inputs: ShopInputs): number {
  const days = [0, 1, 2, 3, 4].map((d) => monday + d);
  const room = days.map(() => 8);
  const tried = (i: number): number => {
    if (i === inputs.jobs.length) return 0;
    const job = inputs.jobs[i];
    const own = inputs.units[i];
    let least = undoneCents(job, monday + 7, 8, own, inputs.rules) + tried(i + 1);
    days.forEach((day, d) => {
      if (room[d] < job.hours) return;
      room[d] -= job.hours;
      least = Math.min(least, dueCostCents(job, day, inputs.rules) + inputs.rules.setUpCents + tried(i + 1));
      room[d] += job.hours;
    });
    return least;
  };
  return tried(0);
}

/** Weeks of up to seven units with one job each, in one lane of 8 h a day. */
export const oneWeek = fc
  .array(
    fc.record({
      hours: fc.integer({ min: 1, max: 8 }),
      due: fc.integer({ min: -2, max: 5 }),
      late: fc.integer({ min: 1, max: 900 }),
      early: fc.integer({ min: 0, max: 90 }),
    }),
    { minLength: 1, maxLength: 7 },
  )
  .map((jobs) =>
    smallShop({
      weeks: 1,
      units: jobs.map((_, i) => unit(String(i), { downtimeCentsPerDay: 0 })),
      jobs: jobs.map(({ hours, due, late, early }, i) =>
        oil(String(i), monday + due, { hours, latenessCentsPerDay: late, earlinessCentsPerDay: early }),
      ),
      rules: { ...rules, setUpHours: 0, cellMinutes: 60 },
    }),
  );
