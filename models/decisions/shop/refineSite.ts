import type { MilpSolver } from '../milpSolver.ts';
import { dearStretches } from './dearStretches.ts';
import type { LanePacker, LanePacking } from './lanePacking.ts';
import { wholeRoom } from './packingRoom.ts';
import type { WindowRules } from './windowRules.ts';
import { hasPlace, placeRegrets } from './placeRegrets.ts';
import { polishPlan } from './polishPlan.ts';
import type { SiteProblem } from './siteProblem.ts';
import { rollPlan } from './rollPlan.ts';
import { slotSearch } from './slotSearch.ts';
import type { SiteState } from './siteState.ts';
import type { VisitPairs } from './visitPairs.ts';
import type { VisitPrices } from './visitPrices.ts';
import { cheapestSplit } from './visitSplits.ts';
import { windowBound } from './windowBound.ts';
import { planCents, takeOver } from './wholePlan.ts';

/**
 * Closes in on the best plan from both sides: stretches of days are solved as a whole, first with all other visits where
 * they are, which makes the plan cheaper, then with the prices of visits beyond them, which raises the bound.
 * @param state a first plan; it only gets cheaper
 * @param prices of the visits, with the bound that they prove
 * @param idealCents cost with unlimited bays and people, cents
 * @param steps of the simplex method, which the rules take several times for the plan and for the bound
 * @returns the bound, at least that of the prices, cents
 */
export function refineSite(
  state: SiteState,
  solver: MilpSolver,
  pairs: VisitPairs,
  packer: LanePacker,
  { provedCents: visitCents, boundCents }: VisitPrices,
  idealCents: number,
  rules: WindowRules,
  steps: number,
): number {
  if (planCents(state) <= boundCents) return boundCents;
  const { problem } = state;
  const packing = packer(visitCents, wholeRoom(problem, pairs), false);
  const { lanes, days } = problem.table;
  const dear = packing.worth > rules.mostLaneCents * lanes.length;
  const { mostLanes, mostLaneCents } = rules.roll;
  const canRoll =
    dear && lanes.length <= mostLanes * days.length && packing.worth <= mostLaneCents * lanes.length;
  // the bound of these very prices, which may be lower than the best on the way to them
  const slack = planCents(state) - pricesBound(problem, packing, visitCents);
  const regrets = placeRegrets(problem, pairs, visitCents, slack);
  const { nodes, polish, bound } = rules;
  const lanesADay = lanes.length / days.length;
  // a single lane is as well counted in cells as long as room is cheap
  const byPatterns = dear || lanesADay > mostLanes;
  const rolled = canRoll
    ? rollPlan(state, solver, regrets, visitCents, slack, rules.roll, rules.roll.times * steps)
    : state;
  if (planCents(rolled) < planCents(state)) takeOver(state, rolled);
  else polishPlan(state, solver, regrets, visitCents, slack, rules, byPatterns, polish.times * steps);
  for (const stretch of dearStretches(problem, packing, visitCents, rules.slots))
    slotSearch(state, stretch, rules.slots);
  const plan = planCents(state);
  const target = rules.gapShare * (plan - idealCents);
  const gap = plan - regrets.boundCents;
  if (gap <= target) return boundCents;
  // places of more regret are in no plan below the bound that is hoped for, but the plan in hand is a solution to begin with
  const hopeCents = Math.min(gap - target, (bound.hopeShare * gap) / Math.max(1, lanesADay));
  const near = {
    ...regrets,
    places: regrets.places.filter((one) => one.regretCents <= hopeCents || hasPlace(state, one)),
  };
  const effort = { nodes, budget: { steps: bound.times * steps }, gapCents: target / 4, patterns: null };
  return Math.max(boundCents, windowBound(state, solver, near, visitCents, hopeCents, bound, effort));
}

/** What no plan undercuts by these prices: the cheapest splits less what the packed lanes are worth, cents. */
function pricesBound(
  { groupUnit, splits }: SiteProblem,
  { worth }: LanePacking,
  visitCents: Float64Array,
): number {
  return groupUnit.reduce((sum, _, group) => sum + cheapestSplit(splits, group, visitCents), -worth);
}
