import { seededRandom } from '../random.ts';
import { dayPrices } from './dayPrices.ts';
import { diveFirst } from './diveFirst.ts';
import { lanePacker } from './lanePacking.ts';
import { wholeRoom } from './packingRoom.ts';
import type { PlanEffort } from './planEffort.ts';
import type { SiteProblem } from './siteProblem.ts';
import { buildFirst, improve } from './siteSearch.ts';
import { emptyState, type SiteState } from './siteState.ts';
import { visitPairs } from './visitPairs.ts';
import { movePrices, pricesFromHours } from './visitPrices.ts';

const seed = 20_260_331;
const mostGroups = 10;

/**
 * Searches the plan of one site and proves a bound: prices of hours, then prices of visits; a first plan is read from these
 * prices, one after a change begins where the earlier had its visits; then visits are taken out and put back.
 * @param fresh whether there is no earlier plan
 * @returns the plan; no plan costs less than the bound; the ideal has unlimited bays and people, cents
 */
export function searchSite(
  problem: SiteProblem,
  fresh: boolean,
  effort: PlanEffort,
): { readonly state: SiteState; readonly boundCents: number; readonly idealCents: number } {
  const { search } = problem.inputs.rules;
  const hours = dayPrices(problem, effort.priceSteps);
  const pairs = visitPairs(problem);
  const packer = lanePacker(problem, pairs);
  const prices = pricesFromHours(problem, hours);
  const fromCents = Math.max(10, search.stepShare * prices.usualCents);
  const { smoothing, settledShare, settledLeast: leastShare } = search;
  movePrices(
    problem,
    packer,
    wholeRoom(problem, pairs),
    prices,
    { steps: effort.packingSteps, fromCents, toCents: fromCents / 150, smoothing },
    false,
    () => undefined,
  );
  const state = emptyState(problem);
  if (fresh) {
    const steps = { steps: effort.diveSteps, fromCents: fromCents / 4, toCents: fromCents / 40, smoothing };
    diveFirst(state, pairs, packer, prices, { prices: steps, settledShare, leastShare });
  } else buildFirst(state, null);
  const rounds = Math.min(effort.mostRounds, effort.roundsPerGroup * problem.groupUnit.length);
  improve(state, { rounds, mostGroups, heatCents: fresh ? search.heatCents : 0 }, seededRandom(seed));
  return { state, boundCents: prices.boundCents, idealCents: hours.idealCents };
}
