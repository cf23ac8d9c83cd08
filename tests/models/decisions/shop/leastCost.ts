import fc from 'fast-check';
import { dueCostCents } from '../../../../models/decisions/shop/dueCost.ts';
import type { ShopInputs } from '../../../../models/decisions/shop/shopInputs.ts';
import { undoneCents } from '../../../../models/decisions/shop/visitCost.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

/**
 * Least cost over every way to give each unit's one job a day of a lane of 8 h, or to leave it; one that is longer takes a
 * whole day of its lane and goes on there the next.
 */
export function leastCost(inputs: ShopInputs): number {
  const days = [0, 1, 2, 3, 4].map((d) => monday + d);
  const lanes = inputs.technicians.map(() => days.map(() => 8));
  const tried = (i: number): number => {
    if (i === inputs.jobs.length) return 0;
    const job = inputs.jobs[i];
    const own = inputs.units[i];
    let least = undoneCents(job, monday + 7, 8, own, inputs.rules) + tried(i + 1);
    const rest = job.hours - 8;
    for (const room of lanes)
      days.forEach((day, d) => {
        if (room[d] < Math.min(8, job.hours) || (rest > 0 && !(room[d + 1] >= rest))) return;
        room[d] -= Math.min(8, job.hours);
        if (rest > 0) room[d + 1] -= rest;
        least = Math.min(
          least,
          dueCostCents(job, day, inputs.rules) + inputs.rules.setUpCents + tried(i + 1),
        );
        room[d] += Math.min(8, job.hours);
        if (rest > 0) room[d + 1] += rest;
      });
    return least;
  };
  return tried(0);
}

const someJobs = (mostHours: number, mostJobs: number) =>
  fc.array(
    fc.record({
      hours: fc.integer({ min: 1, max: mostHours }),
      due: fc.integer({ min: -2, max: 5 }),
      late: fc.integer({ min: 1, max: 900 }),
      early: fc.integer({ min: 0, max: 90 }),
    }),
    { minLength: 1, maxLength: mostJobs },
  );

const week = (
  jobs: readonly {
    readonly hours: number;
    readonly due: number;
    readonly late: number;
    readonly early: number;
  }[],
  more: Partial<ShopInputs>,
) =>
  smallShop({
    ...more,
    weeks: 1,
    units: jobs.map((_, i) => unit(String(i), { downtimeCentsPerDay: 0 })),
    jobs: jobs.map(({ hours, due, late, early }, i) =>
      oil(String(i), monday + due, { hours, latenessCentsPerDay: late, earlinessCentsPerDay: early }),
    ),
    rules: { ...rules, setUpHours: 0, cellMinutes: 60 },
  });

/** Weeks of up to seven units with one job each, in one lane of 8 h a day. */
export const oneWeek = someJobs(8, 7).map((jobs) => week(jobs, {}));

/** Weeks of up to five units with one job each, which may stay overnight, in two lanes of 8 h a day. */
export const twinWeek = someJobs(12, 5).map((jobs) => {
  const [site] = smallShop({}).sites;
  const people = ['Ada', 'Ben'].map((technician) => ({
    technician,
    site: 'Yard',
    skills: null,
    hoursPerDay: 8,
    away: [],
  }));
  return week(jobs, { sites: [{ ...site, bays: ['Bay 1', 'Bay 2'] }], technicians: people });
});
