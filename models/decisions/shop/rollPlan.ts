import type { MilpSolver } from '../milpSolver.ts';
import type { DayWindow } from './dayWindows.ts';
import { laneTakes } from './laneTable.ts';
import type { PlaceRegrets, VisitPlace } from './placeRegrets.ts';
import type { RollRules } from './windowRules.ts';
import { rollChoices, type RollingPlan } from './rollChoices.ts';
import {
  emptyState,
  insertGroup,
  placedCents,
  removeGroup,
  restoreGroup,
  unitFree,
  type SiteState,
} from './siteState.ts';
import { windowEnds } from './windowEnds.ts';
import type { WindowChoice } from './windowChoice.ts';
import { solveWindow } from './windowProgram.ts';

// only the steps of the simplex method limit a window
const anyNodes = 2 ** 31 - 1;

/**
 * A plan made anew from its first day on: a window of days is solved as a whole, where visits may wait beyond it at their
 * price; its first days are settled, and the window moves on. Where work queues for weeks this finds what no exchange of a
 * few visits does.
 * @param plan in hand, which the windows begin from
 * @param visitCents prices that the regrets belong to, cents
 * @param slackCents regret of the dearest places, cents
 * @param steps of the simplex method for all windows
 * @returns a plan of its own, which may be dearer
 * Source: rolling horizon with relax-and-fix, Pochet and Wolsey, Production Planning by Mixed Integer Programming (2006),
 * value from memory.
 */
export function rollPlan(
  plan: SiteState,
  solver: MilpSolver,
  regrets: PlaceRegrets,
  visitCents: Float64Array,
  slackCents: number,
  rules: RollRules,
  steps: number,
): SiteState {
  const { problem, chosen, place } = plan;
  const { bundles, groupUnit, splits, table } = problem;
  const made = emptyState(problem);
  const byGroup: VisitPlace[][] = groupUnit.map(() => []);
  for (const one of regrets.places) byGroup[bundles[one.visit].group].push(one);
  const rolling: RollingPlan = {
    made,
    open: groupUnit.map(
      (_, g) =>
        new Set(bundles.slice(splits.bundleStart[g], splits.bundleStart[g + 1]).flatMap(({ jobs }) => jobs)),
    ),
    byGroup,
    visitCents,
    regrets,
    rules,
    nearCents: rules.regretShare * slackCents,
    taken: ({ visit, lane }) => chosen[bundles[visit].group].includes(visit) && place[visit] === lane,
  };
  const endOf = windowEnds(
    problem,
    regrets.places.filter(
      (one) => one.lane >= 0 && (one.regretCents <= rolling.nearCents || rolling.taken(one)),
    ),
    rules.mostPlaces,
  );
  const days = table.days.length;
  let left = steps;
  for (let fromDay = 0; fromDay < days;) {
    const window = { fromDay, toDay: endOf(fromDay) };
    const kept =
      window.toDay === days ? days : fromDay + Math.ceil(rules.keptShare * (window.toDay - fromDay));
    const budget = { steps: Math.min(left, rules.windowSteps) };
    left -= budget.steps;
    const { picked } = solveWindow(problem, solver, rollChoices(rolling, window), (lane) => made.free[lane], {
      nodes: anyNodes,
      budget,
      gapCents: rules.gapCents,
      patterns: null,
      byWorth: false,
    });
    left += Math.max(0, budget.steps);
    settle(rolling, picked ?? [], { fromDay, toDay: kept });
    fromDay = kept;
  }
  const unfinished = rolling.open.flatMap((jobs, group) => (jobs.size > 0 ? [group] : []));
  for (const group of unfinished) removeGroup(made, group);
  for (const group of unfinished) insertGroup(made, group, null, () => false);
  return made;
}

/** Puts the picked visits that begin on the days from … to before where they were picked. */
function settle({ made, open }: RollingPlan, picked: readonly WindowChoice[], { fromDay, toDay }: DayWindow) {
  const { problem, chosen, place, free } = made;
  const { bundles, table } = problem;
  for (const { visit, lane } of picked) {
    if (lane < 0 || table.laneDay[lane] < fromDay || table.laneDay[lane] >= toDay) continue;
    const { group, jobs, length, type } = bundles[visit];
    if (!jobs.every((job) => open[group].has(job))) continue;
    // two visits of a unit may have been picked for one day
    if (!laneTakes(table, free, lane, length, table.typeSkills[type])) continue;
    if (!unitFree(made, visit, table.laneDay[lane])) continue;
    const visits = [...chosen[group], visit];
    const lanes = visits.map((b) => (b === visit ? lane : place[b]));
    const cents = visits.reduce((sum, b, i) => sum + placedCents(bundles[b], problem, lanes[i]), 0);
    removeGroup(made, group);
    restoreGroup(made, group, visits, lanes, cents);
    for (const job of jobs) open[group].delete(job);
  }
}
