import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planShop } from '../../../../models/decisions/shop/planShop.ts';
import { firstEffort } from '../../../../models/decisions/shop/planEffort.ts';
import { leastCost, oneWeek } from './leastCost.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

const effort = {
  priceSteps: 60,
  packingSteps: 60,
  diveSteps: 10,
  dives: 1,
  firstStepShare: 0.2,
  lastStepShare: 0.00133,
  roundsPerGroup: 40,
  leastRounds: 0,
  mostRounds: 400,
  kicks: 0,
  windowSteps: 0,
};

// every assignment of up to seven jobs to five days or to none is tried
test('the bound is never above the least cost of all plans, nor the plan below it', () => {
  fc.assert(
    fc.property(oneWeek, (inputs) => {
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

test('five thousand jobs take all steps, twice as many half of those of many, very many a least share', () => {
  const search = { ...rules.search, fullJobs: 5000, leastShare: 0.4 };
  const steps = (jobs: number) => firstEffort(search, jobs).packingSteps;
  expect([steps(100), steps(5000)]).toEqual([search.first.packingSteps, search.first.packingSteps]);
  expect([steps(10_000), steps(100_000)].map((count) => count / search.many.packingSteps)).toEqual([
    0.5, 0.4,
  ]);
});
