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
import { visitPairs, type VisitPairs } from './visitPairs.ts';
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
  // where work waits for weeks more is gained by search than by tries
  const crowded = prices.usualCents > search.crowdedCents;
  const { smoothing, settledShare, settledLeast: leastShare } = search;
  const more = fresh ? moreSteps(problem, pairs) : 1;
  movePrices(
    problem,
    packer,
    wholeRoom(problem, pairs),
    prices,
    {
      steps: Math.ceil(more * effort.packingSteps),
      fromCents: stepCents(effort.firstStepShare),
      toCents: stepCents(effort.lastStepShare),
      smoothing,
    },
    false,
    () => undefined,
  );
  const usualTries = fresh ? Math.max(1, effort.dives) : 1;
  // a single try is all that the effort allows
  const tries = usualTries === 1 ? 1 : Math.floor(Math.sqrt(more) * usualTries);
  const groups = problem.groupUnit.length;
  const { diveSteps, roundsPerGroup } = tries > 1 && crowded ? search.many : effort;
  const allRounds = Math.max(effort.leastRounds, roundsPerGroup * groups);
  const rounds = Math.ceil(Math.min(effort.mostRounds, allRounds) / usualTries);
  const random = seededRandom(seed);
  const { slots } = search.windows;
  const packing = packer(prices.provedCents, wholeRoom(problem, pairs), false);
  const stretches = dearStretches(problem, packing, prices.provedCents, slots);
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
    if (fresh) for (const stretch of stretches) slotSearch(state, stretch, slots);
    if (best === null || planCents(state) < planCents(best)) best = state;
  }
  const state = best ?? emptyState(problem);
  if (fresh) kickPlan(state, stretches, effort.kicks, search.kick, slots, random);
  const { idealCents } = hours;
  const boundCents =
    fresh && solver !== null && effort.windowSteps > 0
      ? refineSite(state, solver, pairs, packer, prices, idealCents, search.windows, effort.windowSteps)
      : prices.boundCents;
  return { state, boundCents, idealCents };
}

/** How many times the usual steps a site's prices take: more where a step has few visits to choose from for each lane. */
function moreSteps({ table, inputs }: SiteProblem, { day }: VisitPairs): number {
  const { fullWork, mostSteps } = inputs.rules.search;
  const work = day.length ** 2 / Math.max(1, table.lanes.length);
  return Math.min(mostSteps, Math.max(1, fullWork / Math.max(1, work)));
}
