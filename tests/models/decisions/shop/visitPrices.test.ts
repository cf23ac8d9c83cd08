import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dayPrices } from '../../../../models/decisions/shop/dayPrices.ts';
import { lanePacker } from '../../../../models/decisions/shop/lanePacking.ts';
import { wholeRoom } from '../../../../models/decisions/shop/packingRoom.ts';
import { placeRegrets } from '../../../../models/decisions/shop/placeRegrets.ts';
import { siteProblem } from '../../../../models/decisions/shop/siteProblem.ts';
import { visitPairs } from '../../../../models/decisions/shop/visitPairs.ts';
import { movePrices, pricesFromHours } from '../../../../models/decisions/shop/visitPrices.ts';
import { oneWeek } from './leastCost.ts';

test('the prices that are kept prove the bound that is said', () => {
  fc.assert(
    fc.property(oneWeek, fc.integer({ min: 1, max: 80 }), (inputs, steps) => {
      const problem = siteProblem(inputs, inputs.sites[0], inputs.jobs, new Map(), new Map());
      const pairs = visitPairs(problem);
      const packer = lanePacker(problem, pairs);
      const prices = pricesFromHours(problem, dayPrices(problem, 20));
      const ofHours = prices.boundCents;
      const run = { steps, fromCents: 500, toCents: 5, smoothing: 0.3 };
      movePrices(problem, packer, wholeRoom(problem, pairs), prices, run, false, () => undefined);
      expect(prices.boundCents).toBeGreaterThanOrEqual(ofHours);
      const { boundCents } = placeRegrets(problem, pairs, prices.provedCents, 0);
      if (prices.boundCents > ofHours) expect(boundCents).toBeCloseTo(prices.boundCents, 3);
      else expect(boundCents).toBeLessThanOrEqual(ofHours + 0.001);
    }),
    { numRuns: 60, seed: 5 },
  );
});
