import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planShop } from '../../../../models/decisions/shop/planShop.ts';
import type { ShopInputs } from '../../../../models/decisions/shop/shopInputs.ts';
import { dueCostCents } from '../../../../models/decisions/shop/dueCost.ts';
import { firstEffort } from '../../../../models/decisions/shop/planEffort.ts';
import { undoneCents } from '../../../../models/decisions/shop/visitCost.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

const effort = {
  priceSteps: 60,
  packingSteps: 60,
  diveSteps: 10,
  dives: 1,
  roundsPerGroup: 40,
  mostRounds: 400,
};

/** Least cost over every way to give each unit's one job a day of one lane of 8 h, or to leave it. */
function leastCost(inputs: ShopInputs): number {
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

const weeks = fc
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

// every assignment of up to seven jobs to five days or to none is tried
test('the bound is never above the least cost of all plans, nor the plan below it', () => {
  fc.assert(
    fc.property(weeks, (inputs) => {
      const plan = planShop(inputs, effort);
      const least = leastCost(inputs);
      expect(plan.boundCents).toBeLessThanOrEqual(least);
      expect(plan.objectiveCents).toBeGreaterThanOrEqual(least);
    }),
    { numRuns: 40, seed: 13 },
  );
});

// two visits of 5 h never share a day of 8 h, though their 10 h would fit into the 16 h of two days with another of 6 h
test('the bound knows that long visits do not share a day', () => {
  const jobs = [5, 5, 6].map((hours, i) =>
    oil(String(i), monday, { hours, latenessCentsPerDay: 1000, earlinessCentsPerDay: 0 }),
  );
  const plan = planShop(
    smallShop({
      weeks: 1,
      units: jobs.map((_, i) => unit(String(i), { downtimeCentsPerDay: 0 })),
      jobs,
      rules: { ...rules, setUpHours: 0, setUpCents: 0, cellMinutes: 60 },
    }),
  );
  // one on each of the first three days: 0 + 1000 + 2000
  expect(plan.objectiveCents).toBe(3000);
  expect(plan.boundCents).toBeGreaterThanOrEqual(2990);
  expect(plan.idealCents).toBe(0);
});

test('five thousand jobs take all steps, twice as many half of them, very many a least share', () => {
  const search = { ...rules.search, fullJobs: 5000, leastShare: 0.4 };
  const steps = (jobs: number) => firstEffort(search, jobs).packingSteps / search.first.packingSteps;
  expect([steps(100), steps(5000), steps(10_000), steps(100_000)]).toEqual([1, 1, 0.5, 0.4]);
});
