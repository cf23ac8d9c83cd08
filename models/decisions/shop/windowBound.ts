import type { MilpSolver } from '../milpSolver.ts';
import { dayWindows, type DayWindow } from './dayWindows.ts';
import type { PlaceRegrets, VisitPlace } from './placeRegrets.ts';
import type { SiteState } from './siteState.ts';
import { solveWindow, type WindowChoice, type WindowEffort } from './windowProgram.ts';

/**
 * Raises the bound: the days are cut into windows, each solved as a whole. A group is owed in the window where the plan has
 * it and pays its visits' price to be elsewhere; other windows get that price for taking it in. The windows' bounds add up
 * to a bound for every plan made of the places, and every other plan costs more than the bound before by the slack.
 * @param state the plan in hand
 * @param visitCents prices that the regrets belong to, cents
 * @param slackCents places left out have a regret above this
 * @param mostPlaces by window
 * @returns cents; at most the bound before and the slack
 * Source: Lagrangian decomposition, Guignard and Kim, Mathematical Programming 39 (1987), value from memory.
 */
export function windowBound(
  state: SiteState,
  solver: MilpSolver,
  regrets: PlaceRegrets,
  visitCents: Float64Array,
  slackCents: number,
  mostPlaces: number,
  effort: WindowEffort,
): number {
  const { problem, chosen, place } = state;
  const { table, bundles, groupUnit } = problem;
  const windows = dayWindows(problem, regrets, mostPlaces, problem.inputs.rules.search.windows.cut);
  const windowOf = new Int32Array(table.days.length);
  windows.forEach(({ fromDay, toDay }, w) => windowOf.fill(w, fromDay, toDay));
  const byGroup: VisitPlace[][] = groupUnit.map(() => []);
  for (const one of regrets.places) byGroup[bundles[one.visit].group].push(one);
  const home = groupUnit.map((_, group) => {
    const visit = chosen[group].find((b) => place[b] >= 0);
    if (visit !== undefined) return windowOf[table.laneDay[place[visit]]];
    let best: VisitPlace | null = null;
    for (const one of byGroup[group])
      if (one.lane >= 0 && (best === null || one.regretCents < best.regretCents)) best = one;
    return best === null ? 0 : windowOf[table.laneDay[best.lane]];
  });
  const gapCents = effort.gapCents / windows.length;
  let sum = 0;
  windows.forEach((window, w) => {
    const choices: WindowChoice[] = [];
    let before = -regrets.roomCents(window.fromDay, window.toDay);
    for (let group = 0; group < groupUnit.length; group++) {
      if (home[group] === w) {
        before += regrets.groupCents[group];
        choices.push(...ownChoices(state, window, byGroup[group], visitCents));
      } else choices.push(...guestChoices(state, window, byGroup[group], visitCents));
    }
    const { boundCents } = solveWindow(problem, solver, choices, (lane) => table.laneCells[lane], {
      ...effort,
      gapCents,
    });
    sum += Math.max(before, boundCents);
  });
  return Math.min(sum, regrets.boundCents + slackCents);
}

/** Choices of a group that is owed in the window: there, without a bay, or beyond the window at the visits' price. */
function ownChoices(
  { problem, chosen, place }: SiteState,
  window: DayWindow,
  places: readonly VisitPlace[],
  visitCents: Float64Array,
): WindowChoice[] {
  const own: WindowChoice[] = [];
  const beyond = new Set<number>();
  const settled = new Set<number>();
  for (const { visit, lane } of places) if (lane >= 0 && !within(problem, window, lane)) beyond.add(visit);
  for (const one of places) {
    const { visit, lane, cents } = one;
    if (lane >= 0 && !within(problem, window, lane)) continue;
    // elsewhere it costs less and takes no room here
    if (beyond.has(visit) && cents >= visitCents[visit]) continue;
    const has = chosen[problem.bundles[visit].group].includes(visit);
    const taken = has && (lane < 0 ? place[visit] < 0 : place[visit] === lane);
    if (taken) settled.add(visit);
    own.push({ visit, lane, takes: takes(problem, window, one), cents, owed: true, taken });
  }
  for (const visit of beyond) {
    const has = chosen[problem.bundles[visit].group].includes(visit);
    const taken = has && !settled.has(visit);
    own.push({ visit, lane: -1, takes: [], cents: visitCents[visit], owed: true, taken });
  }
  return own;
}

/** Choices of a group that is owed elsewhere: what the window gets for taking one of its visits in. */
function guestChoices(
  { problem, chosen, place }: SiteState,
  window: DayWindow,
  places: readonly VisitPlace[],
  visitCents: Float64Array,
): WindowChoice[] {
  return places.flatMap((one) => {
    const { visit, lane, cents } = one;
    if (lane < 0 || !within(problem, window, lane) || cents >= visitCents[visit]) return [];
    const taken = chosen[problem.bundles[visit].group].includes(visit) && place[visit] === lane;
    const gain = cents - visitCents[visit];
    return [{ visit, lane, takes: takes(problem, window, one), cents: gain, owed: false, taken }];
  });
}

function within({ table }: SiteState['problem'], { fromDay, toDay }: DayWindow, lane: number): boolean {
  return table.laneDay[lane] >= fromDay && table.laneDay[lane] < toDay;
}

/** What a visit takes of the window's lanes; what lies beyond is not counted. */
function takes(
  problem: SiteState['problem'],
  window: DayWindow,
  { visit, lanes }: VisitPlace,
): WindowChoice['takes'] {
  const { lastCells } = problem.bundles[visit].length;
  return lanes.flatMap((lane, i) =>
    within(problem, window, lane)
      ? [{ lane, cells: i < lanes.length - 1 ? problem.table.laneCells[lane] : lastCells }]
      : [],
  );
}
