import type { MilpSolver } from '../milpSolver.ts';
import { laneTakes } from './laneTable.ts';
import type { DayWindow } from './dayWindows.ts';
import type { VisitPlace } from './placeRegrets.ts';
import { placedCents, removeGroup, restoreGroup, unitFree, type SiteState } from './siteState.ts';
import type { WindowChoice } from './windowChoice.ts';
import { solveWindow, type WindowEffort } from './windowProgram.ts';

/**
 * Solves the days of one window anew, as a whole: groups that lie in it and stay within a day each are put where they cost
 * least together, all others stay.
 * @param state the plan; it never gets dearer
 * @param byGroup places that are tried, by group
 */
export function polishWindow(
  state: SiteState,
  solver: MilpSolver,
  byGroup: readonly (readonly VisitPlace[])[],
  { fromDay, toDay }: DayWindow,
  visitCents: Float64Array,
  effort: WindowEffort,
): void {
  const { problem, chosen, place, groupCents, free } = state;
  const { bundles, table, groupUnit } = problem;
  const inside = (lane: number) => lane >= 0 && table.laneDay[lane] >= fromDay && table.laneDay[lane] < toDay;
  const groups = groupUnit.flatMap((_, group) =>
    chosen[group].length > 0 &&
    chosen[group].every((b) => inside(place[b]) && bundles[b].length.fullDays === 0)
      ? [group]
      : [],
  );
  if (groups.length < 2) return;
  const former = groups.map((group) => ({
    group,
    visits: chosen[group],
    lanes: chosen[group].map((b) => place[b]),
    cents: groupCents[group],
  }));
  for (const group of groups) removeGroup(state, group);
  const choices: WindowChoice[] = former.flatMap(({ group, visits, lanes }) =>
    byGroup[group].flatMap(({ visit, lane, cents }) => {
      const taken = lanes[visits.indexOf(visit)] === lane;
      const { length, type } = bundles[visit];
      const fits = inside(lane) && laneTakes(table, free, lane, length, table.typeSkills[type]);
      if (length.fullDays > 0 || !fits || !unitFree(state, visit, table.laneDay[lane])) return [];
      const worthCents = visitCents[visit] - cents;
      return [
        { visit, lane, takes: [{ lane, cells: length.lastCells }], cents, worthCents, owed: true, taken },
      ];
    }),
  );
  const back = () => {
    for (const { group, visits, lanes, cents } of former) restoreGroup(state, group, visits, lanes, cents);
  };
  const before = former.reduce((sum, { cents }) => sum + cents, 0);
  const { picked } = solveWindow(problem, solver, choices, (lane) => free[lane], effort);
  const after = picked?.reduce((sum, { cents }) => sum + cents, 0) ?? Infinity;
  // whole cents below: a difference in the last digits is no gain
  if (picked === null || after > before - 0.5 || !groups.every((group) => done(state, group, picked)))
    return back();
  const byNew = new Map<number, WindowChoice[]>(groups.map((group) => [group, []]));
  for (const choice of picked) byNew.get(bundles[choice.visit].group)?.push(choice);
  for (const [group, own] of byNew) {
    const lanes = own.map(({ lane }) => lane);
    const visits = own.map(({ visit }) => visit);
    const cents = visits.reduce((sum, b, i) => sum + placedCents(bundles[b], problem, lanes[i]), 0);
    restoreGroup(state, group, visits, lanes, cents);
  }
  if (keepsRules(state, groups)) return;
  for (const group of groups) removeGroup(state, group);
  back();
}

/** Whether the choices do all jobs of a group, each once. */
function done(
  { problem: { bundles, splits } }: SiteState,
  group: number,
  picked: readonly WindowChoice[],
): boolean {
  const own = picked.filter(({ visit }) => bundles[visit].group === group);
  const jobs = own.flatMap(({ visit }) => bundles[visit].jobs);
  const all = new Set(
    bundles.slice(splits.bundleStart[group], splits.bundleStart[group + 1]).flatMap((b) => b.jobs),
  );
  return jobs.length === all.size && jobs.every((job) => all.delete(job));
}

/** Whether no lane is overfull and no unit is in two visits on a day. */
function keepsRules(state: SiteState, groups: readonly number[]): boolean {
  const { chosen, place, free, problem } = state;
  return groups.every((group) =>
    chosen[group].every((b) => free[place[b]] >= 0 && unitFree(state, b, problem.table.laneDay[place[b]])),
  );
}
