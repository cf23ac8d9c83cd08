import type { MilpSolver } from '../milpSolver.ts';
import { seededRandom } from '../../numeric/random.ts';
import { dayPrices } from './dayPrices.ts';
import { dearStretches } from './dearStretches.ts';
import { diveFirst } from './diveFirst.ts';
import { kickPlan } from './kickPlan.ts';
import { lanePacker } from './lanePacking.ts';
import { wholeRoom } from './packingRoom.ts';
import type { PlanEffort } from './planEffort.ts';
import { refineSite } from './refineSite.ts';
import type { SiteProblem } from './siteProblem.ts';
import { buildFirst, improve } from './siteSearch.ts';
import { slotSearch } from './slotSearch.ts';
import { emptyState, type SiteState } from './siteState.ts';
import { visitPairs } from './visitPairs.ts';
import { movePrices, pricesFromHours } from './visitPrices.ts';
import { planCents } from './wholePlan.ts';

const seed = 20_260_331;
const mostGroups = 10;

/**
 * Searches the plan of one site and proves a bound: prices of hours, then prices of visits; a first plan is read from these
 * prices, one after a change begins where the earlier had its visits; then visits are taken out and put back, slots of lanes
 * change places, and stretches of days are solved as a whole.
 * @param fresh whether there is no earlier plan
 * @param solver for the stretches of days of a first plan, or null
 * @returns the plan; no plan costs less than the bound; the ideal has unlimited bays and people, cents
 */
export function searchSite(
  problem: SiteProblem,
  fresh: boolean,
  effort: PlanEffort,
  solver: MilpSolver | null,
): { readonly state: SiteState; readonly boundCents: number; readonly idealCents: number } {
  const { search } = problem.inputs.rules;
  const hours = dayPrices(problem, effort.priceSteps);
  const pairs = visitPairs(problem);
  const packer = lanePacker(problem, pairs);
  const prices = pricesFromHours(problem, hours);
  const stepCents = (share: number) => share * Math.max(10 / search.stepShare, prices.usualCents);
  const fromCents = stepCents(search.stepShare);
  // where work waits for weeks, wide steps would throw the prices about, and more is gained by search than by tries
  const crowded = stepCents(effort.firstStepShare) > search.mostStepCents;
  const { firstStepShare, lastStepShare } = crowded ? search.many : effort;
  const { smoothing, settledShare, settledLeast: leastShare } = search;
  movePrices(
    problem,
    packer,
    wholeRoom(problem, pairs),
    prices,
    {
      steps: effort.packingSteps,
      fromCents: stepCents(firstStepShare),
      toCents: stepCents(lastStepShare),
      smoothing,
    },
    false,
    () => undefined,
  );
  const tries = fresh ? Math.max(1, effort.dives) : 1;
  const groups = problem.groupUnit.length;
  const { diveSteps, roundsPerGroup } = tries > 1 && crowded ? search.many : effort;
  const allRounds = Math.max(effort.leastRounds, roundsPerGroup * groups);
  const rounds = Math.ceil(Math.min(effort.mostRounds, allRounds) / tries);
  const random = seededRandom(seed);
  let best: SiteState | null = null;
  for (let k = 0; k < tries; k++) {
    const state = emptyState(problem);
    if (fresh) {
      // each try settles a little more slowly than the one before
      const steps = {
        steps: diveSteps + search.moreDiveSteps * k,
        fromCents: fromCents / 4,
        toCents: fromCents / 40,
        smoothing,
      };
      const own = {
        ...prices,
        visitCents: prices.visitCents.slice(),
        direction: prices.direction.slice(),
        settledCents: prices.settledCents.slice(),
      };
      // a single try can not make up for a long visit that found no day
      const longFirst = tries === 1 ? 0.5 : 0;
      diveFirst(state, pairs, packer, own, { prices: steps, settledShare, leastShare, longFirst });
    } else buildFirst(state, null);
    improve(state, { rounds, mostGroups, heatCents: fresh ? search.heatCents : 0 }, random);
    if (best === null || planCents(state) < planCents(best)) best = state;
  }
  const state = best ?? emptyState(problem);
  if (fresh) {
    const { slots } = search.windows;
    const packing = packer(prices.visitCents, wholeRoom(problem, pairs), false);
    const stretches = dearStretches(problem, packing, prices.visitCents, slots);
    for (const stretch of stretches) slotSearch(state, stretch, slots);
    kickPlan(state, stretches, effort.kicks, search.kick, slots, random);
  }
  const { idealCents } = hours;
  const boundCents =
    fresh && solver !== null && effort.windowSteps > 0
      ? refineSite(state, solver, pairs, packer, prices, idealCents, search.windows, effort.windowSteps)
      : prices.boundCents;
  return { state, boundCents, idealCents };
}
