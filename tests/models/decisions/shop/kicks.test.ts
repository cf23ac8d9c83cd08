import fc from 'fast-check';
import { expect, test } from 'vitest';
import { seededRandom } from '../../../../models/numeric/random.ts';
import { kickPlan } from '../../../../models/decisions/shop/kickPlan.ts';
import { siteProblem } from '../../../../models/decisions/shop/siteProblem.ts';
import { buildFirst } from '../../../../models/decisions/shop/siteSearch.ts';
import {
  emptyState,
  placedCents,
  unitFree,
  type SiteState,
} from '../../../../models/decisions/shop/siteState.ts';
import { planCents, takeOver } from '../../../../models/decisions/shop/wholePlan.ts';
import { leastCost, oneWeek, twinWeek } from './leastCost.ts';
import { rules } from './smallShop.ts';

const kick = { days: 3, mostGroups: 3, skipShare: 0.2, slots: { tries: 20, leastGainCents: 0 } };
const { slots } = rules.search.windows;

/** A first plan, kicked. */
function kicked(problem: SiteState['problem'], kicks: number) {
  const state = emptyState(problem);
  buildFirst(state, null);
  const before = planCents(state);
  kickPlan(state, [{ fromDay: 0, toDay: problem.table.days.length }], kicks, kick, slots, seededRandom(3));
  return { state, before };
}

// every assignment of up to seven jobs to five days, or of up to five to two lanes, overnight too, or to none is tried
test('a kicked plan gets cheaper or stays, keeps its rules, and comes down to the least cost of all plans in most weeks', () => {
  let weeks = 0;
  let best = 0;
  let cheaper = 0;
  fc.assert(
    fc.property(fc.oneof(oneWeek, twinWeek), (inputs) => {
      const problem = siteProblem(inputs, inputs.sites[0], inputs.jobs, new Map(), new Map());
      const { state, before } = kicked(problem, 60);
      const after = planCents(state);
      const least = leastCost(inputs);
      expect(after).toBeLessThanOrEqual(before);
      expect(after).toBeGreaterThanOrEqual(least - 1e-6);
      weeks += 1;
      if (after < before) cheaper += 1;
      if (after < least + 1) best += 1;
      expect(Math.min(...state.free)).toBeGreaterThanOrEqual(0);
      state.chosen.forEach((own, group) => {
        const cents = own.reduce(
          (sum, b) => sum + placedCents(problem.bundles[b], problem, state.place[b]),
          0,
        );
        expect(cents).toBeCloseTo(state.groupCents[group], 6);
        for (const b of own)
          if (state.place[b] >= 0)
            expect(unitFree(state, b, problem.table.laneDay[state.place[b]])).toBe(true);
      });
      expect(kicked(problem, 60).state.place).toEqual(state.place);
    }),
    { numRuns: 60, seed: 47 },
  );
  expect(cheaper).toBeGreaterThan(0);
  expect(best / weeks).toBeGreaterThan(0.9);
});

test('a plan that is taken over is the same', () => {
  const [inputs] = fc.sample(twinWeek, { numRuns: 1, seed: 7 });
  const { state } = kicked(siteProblem(inputs, inputs.sites[0], inputs.jobs, new Map(), new Map()), 3);
  const other = emptyState(state.problem);
  buildFirst(other, null);
  takeOver(other, state);
  expect([other.place, other.free, other.chosen, planCents(other)]).toEqual([
    state.place,
    state.free,
    state.chosen,
    planCents(state),
  ]);
});
