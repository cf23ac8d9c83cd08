import type { MilpSolver } from '../milpSolver.ts';
import type { PlaceRegrets, VisitPlace } from './placeRegrets.ts';
import type { WindowRules } from './windowRules.ts';
import { polishWindow } from './polishWindows.ts';
import type { SiteState } from './siteState.ts';
import { windowEnds } from './windowEnds.ts';

/**
 * Solves one stretch of days after the other as a whole, all other visits where they are: each overlaps the one before.
 * @param state the plan; it only gets cheaper
 * @param visitCents prices that the regrets belong to, cents
 * @param slackCents regret of the dearest places, cents
 * @param byPatterns whether lanes are filled by patterns, in shorter stretches, or only counted in cells
 * @param steps of the simplex method for all stretches
 */
export function polishPlan(
  state: SiteState,
  solver: MilpSolver,
  regrets: PlaceRegrets,
  visitCents: Float64Array,
  slackCents: number,
  { nodes, polish }: WindowRules,
  byPatterns: boolean,
  steps: number,
): void {
  const { problem, place } = state;
  const { bundles, groupUnit, table } = problem;
  const nearCents = polish.share * slackCents;
  const places = regrets.places.filter(
    ({ visit, lane, regretCents }) => lane >= 0 && (regretCents <= nearCents || place[visit] === lane),
  );
  const byGroup: VisitPlace[][] = groupUnit.map(() => []);
  for (const one of places) byGroup[bundles[one.visit].group].push(one);
  const endOf = windowEnds(problem, places, byPatterns ? polish.mostPlaces : polish.cellPlaces);
  const patterns = byPatterns ? { mostLossCents: nearCents, mostPatterns: polish.mostPatterns } : null;
  const days = table.days.length;
  let left = steps;
  for (let fromDay = 0; fromDay < days && left > 0;) {
    const window = { fromDay, toDay: endOf(fromDay) };
    const most = Math.min(left, polish.windowSteps);
    const budget = { steps: most };
    const effort = { nodes, budget, gapCents: polish.gapCents, patterns, byWorth: false };
    polishWindow(state, solver, byGroup, window, visitCents, effort);
    left -= most - budget.steps;
    fromDay =
      window.toDay === days
        ? days
        : fromDay + Math.max(1, Math.ceil(polish.keptShare * (window.toDay - fromDay)));
  }
}
