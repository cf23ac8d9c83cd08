import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planShop } from '../../../../models/decisions/shop/planShop.ts';
import type { ShopInputs } from '../../../../models/decisions/shop/shopInputs.ts';
import { inventedShop } from '../../../bench/inventedShop.ts';
import { highs } from '../highs.ts';
import { leastCost, oneWeek, twinWeek } from './leastCost.ts';
import { monday, oil, rules, smallShop, unit } from './smallShop.ts';

const effort = {
  priceSteps: 60,
  packingSteps: 60,
  diveSteps: 10,
  dives: 1,
  roundsPerGroup: 2,
  leastRounds: 0,
  mostRounds: 20,
  kicks: 5,
  firstStepShare: 0.2,
  lastStepShare: 0.002,
  windowSteps: 2000,
};

/** The rules with windows of a day or two, so that several meet. */
const narrow = (mostPlaces: number) => ({
  ...rules,
  search: {
    ...rules.search,
    windows: {
      ...rules.search.windows,
      gapShare: 0,
      mostLaneCents: Infinity,
      polish: { ...rules.search.windows.polish, mostPlaces, share: 1 },
      bound: { ...rules.search.windows.bound, mostPlaces, hopeShare: 1, leastShare: 0, hopeSteps: 0 },
      slots: { ...rules.search.windows.slots, leastLaneCents: -1, leastGainCents: 0 },
    },
  },
});

/** The rules with plans made anew from their first day on, by windows of about two days. */
const rolling = {
  ...rules,
  search: {
    ...rules.search,
    windows: {
      ...rules.search.windows,
      gapShare: 0,
      mostLaneCents: -1,
      roll: { ...rules.search.windows.roll, mostLanes: Infinity, mostLaneCents: Infinity, mostPlaces: 6 },
      bound: { ...rules.search.windows.bound, hopeSteps: 0 },
    },
  },
};

// every assignment of up to seven jobs to five days or to none is tried
test('with windows solved as a whole the bound stays at or below the least cost, and the plan at or above', () => {
  fc.assert(
    fc.property(oneWeek, fc.constantFrom(3, 10, 1000), (inputs, mostPlaces) => {
      const { setUpHours, cellMinutes } = inputs.rules;
      const windows = { ...inputs, rules: { ...narrow(mostPlaces), setUpHours, cellMinutes } };
      const plan = planShop(windows, effort, highs);
      const least = leastCost(windows);
      expect(plan.boundCents).toBeLessThanOrEqual(least);
      expect(plan.objectiveCents).toBeGreaterThanOrEqual(least);
    }),
    { numRuns: 25, seed: 29 },
  );
});

// every assignment of up to five jobs to five days of two lanes, some of them overnight, or to none is tried
test('the same holds where lanes are twins and visits stay overnight beyond a window', () => {
  fc.assert(
    fc.property(twinWeek, fc.constantFrom(3, 10, 1000), (inputs, mostPlaces) => {
      const { setUpHours, cellMinutes } = inputs.rules;
      const windows = { ...inputs, rules: { ...narrow(mostPlaces), setUpHours, cellMinutes } };
      const plan = planShop(windows, { ...effort, roundsPerGroup: 0 }, highs);
      const least = leastCost(windows);
      expect(plan.boundCents).toBeLessThanOrEqual(least);
      expect(plan.objectiveCents).toBeGreaterThanOrEqual(least);
    }),
    { numRuns: 25, seed: 37 },
  );
});

test('the same holds where plans are made anew from their first day on', () => {
  fc.assert(
    fc.property(oneWeek, (inputs) => {
      const { setUpHours, cellMinutes } = inputs.rules;
      const windows = { ...inputs, rules: { ...rolling, setUpHours, cellMinutes } };
      const plan = planShop(windows, { ...effort, roundsPerGroup: 0 }, highs);
      const least = leastCost(windows);
      expect(plan.boundCents).toBeLessThanOrEqual(least);
      expect(plan.objectiveCents).toBeGreaterThanOrEqual(least);
    }),
    { numRuns: 25, seed: 31 },
  );
});

// days of 8 h take 5 + 3 h, then 4 + 4 h, then 5 h: 1000 for each hour and day waited are 8 · 1000 + 5 · 2000 = 18 000
test('one window over all days proves its plan to be the best', () => {
  const jobs = [5, 5, 3, 4, 4].map((hours, i) =>
    oil(String(i), monday, { hours, latenessCentsPerDay: 1000 * hours, earlinessCentsPerDay: 0 }),
  );
  const inputs: ShopInputs = smallShop({
    weeks: 1,
    units: jobs.map((_, i) => unit(String(i), { downtimeCentsPerDay: 0 })),
    jobs,
    rules: { ...narrow(1000), setUpHours: 0, setUpCents: 0, cellMinutes: 60 },
  });
  const plan = planShop(inputs, effort, highs);
  expect([plan.objectiveCents, leastCost(inputs)]).toEqual([18_000, 18_000]);
  expect(plan.boundCents).toBe(plan.objectiveCents);
});

test.each([
  ['windows make', narrow(200)],
  ['a plan made anew makes', rolling],
])('%s a fleet’s plan no dearer and its bound no lower, and the same again', (_, own) => {
  const inputs = inventedShop(70, 4, 1.3, 3, own);
  const plain = planShop(inputs, { ...effort, windowSteps: 0 }, highs);
  const short = { ...effort, windowSteps: 400 };
  const plan = planShop(inputs, short, highs);
  expect(plan.objectiveCents).toBeLessThanOrEqual(plain.objectiveCents);
  expect(plan.boundCents).toBeGreaterThanOrEqual(plain.boundCents);
  expect(plan.gap).toBeLessThan(plain.gap);
  expect(planShop(inputs, short, highs)).toEqual(plan);
  const jobs = [
    ...plan.visits.flatMap(({ jobDetails }) => jobDetails.map(({ jobId }) => jobId)),
    ...plan.notPlaced.map(({ jobId }) => jobId),
  ];
  expect(jobs.sort()).toEqual(inputs.jobs.map(({ jobId }) => jobId).sort());
});
