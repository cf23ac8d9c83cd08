import type { MilpSolver } from '../milpSolver.ts';
import { dayWindows, type DayWindow } from './dayWindows.ts';
import { hasPlace, type PlaceRegrets, type VisitPlace } from './placeRegrets.ts';
import type { SiteState } from './siteState.ts';
import type { WindowChoice } from './windowChoice.ts';
import { solveWindow, type WindowEffort } from './windowProgram.ts';
import type { BoundRules } from './windowRules.ts';

/**
 * Raises the bound: the days are cut into windows, each solved as a whole. A group is owed in the window where the plan has
 * it and pays its visits' price to be elsewhere; other windows get that price for taking it in. The windows' bounds add up
 * to a bound for every plan made of the places, and every other plan costs more than the bound before by the slack.
 * @param state the plan in hand
 * @param visitCents prices that the regrets belong to, cents
 * @param slackCents places left out have a regret above this
 * @param rules of the windows
 * @returns cents; at most the bound before and the slack
 * Source: Lagrangian decomposition, Guignard and Kim, Mathematical Programming 39 (1987), value from memory.
 */
export function windowBound(
  state: SiteState,
  solver: MilpSolver,
  regrets: PlaceRegrets,
  visitCents: Float64Array,
  slackCents: number,
  { mostPlaces, leastShare, hopeSteps, windowSteps }: BoundRules,
  { budget, ...effort }: Omit<WindowEffort, 'byWorth'>,
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
  // by window: groups that are owed in it, then those that may take room there, with the places that do
  const inWindow = windows.map(() => new Map<number, VisitPlace[]>());
  home.forEach((w, group) => inWindow[w].set(group, []));
  for (const one of regrets.places) {
    let former = -1;
    for (const lane of one.lanes) {
      const w = windowOf[table.laneDay[lane]];
      if (w === former) continue;
      former = w;
      const { group } = bundles[one.visit];
      const own = inWindow[w].get(group);
      if (own === undefined) inWindow[w].set(group, [one]);
      else own.push(one);
    }
  }
  const parts = windows.map((window, w) => {
    let before = -regrets.roomCents(window.fromDay, window.toDay);
    // what the plan in hand costs here
    let inHand = 0;
    const choices = [...inWindow[w]].flatMap(([group, places]) => {
      const rest = restChoices(state, window, places, regrets);
      const isOwed = home[group] === w;
      const own = isOwed
        ? ownChoices(state, window, byGroup[group], visitCents, regrets)
        : guestChoices(state, window, places, visitCents, regrets);
      const all = [...own, ...rest];
      if (isOwed) before += regrets.groupCents[group];
      // where the plan has a place that is left out
      if (isOwed && !own.some(({ taken }) => taken)) inHand += state.groupCents[group];
      for (const { taken, cents } of all) if (taken) inHand += cents;
      return all;
    });
    return { choices, before, lackCents: Math.max(0, inHand - before), days: window.toDay - window.fromDay };
  });
  const gapCents = effort.gapCents / windows.length;
  const leastCents = leastShare * parts.reduce((sum, { lackCents }) => sum + lackCents, 0);
  const room = (lane: number) => table.laneCells[lane];
  const solve = (choices: readonly WindowChoice[], before: number, byWorth: boolean): number => {
    // each choice may be a column, which costs a step before the first, and a few steps show nothing
    if (budget.steps < choices.length + hopeSteps) return -Infinity;
    const most = Math.min(budget.steps, windowSteps);
    const own = { steps: most };
    const hope = { steps: hopeSteps, bound: before - slackCents };
    const limits = { ...effort, budget: own, hope, gapCents, byWorth };
    const { boundCents } = solveWindow(problem, solver, choices, room, limits);
    budget.steps -= most - own.steps;
    return boundCents;
  };
  // the steps go first to where most is lacking
  return Math.min(
    [...parts]
      .sort((a, b) => b.lackCents - a.lackCents)
      .reduce((sum, { choices, before, lackCents, days }) => {
        // the prices have packed each day for itself
        if (days < 2 || lackCents < leastCents) return sum + before;
        const byCells = solve(choices, before, false);
        // where the cells of twin lanes say too little the worth of packed lanes says more
        return sum + Math.max(before, byCells < before ? solve(choices, before, true) : byCells);
      }, 0),
    regrets.boundCents + slackCents,
  );
}

/** Choices of a group that is owed in the window: there, without a bay, or beyond the window at the visits' price. */
function ownChoices(
  state: SiteState,
  window: DayWindow,
  places: readonly VisitPlace[],
  visitCents: Float64Array,
  regrets: PlaceRegrets,
): WindowChoice[] {
  const { problem, chosen } = state;
  const own: WindowChoice[] = [];
  const beyond = new Set<number>();
  const settled = new Set<number>();
  for (const { visit, lane } of places) if (lane >= 0 && !within(problem, window, lane)) beyond.add(visit);
  for (const one of places) {
    const { visit, lane } = one;
    if (lane >= 0 && !within(problem, window, lane)) continue;
    const cents = one.cents + heldCents(problem, one, regrets, (at) => !within(problem, window, at));
    // elsewhere it costs less and takes no room here
    if (beyond.has(visit) && cents >= visitCents[visit]) continue;
    const taken = hasPlace(state, one);
    if (taken) settled.add(visit);
    own.push({
      visit,
      lane,
      takes: takes(problem, window, one),
      cents,
      worthCents: visitCents[visit] - cents,
      owed: true,
      taken,
    });
  }
  for (const visit of beyond) {
    const has = chosen[problem.bundles[visit].group].includes(visit);
    const taken = has && !settled.has(visit);
    own.push({
      visit,
      lane: -1,
      takes: [],
      cents: visitCents[visit],
      worthCents: 0,
      owed: true,
      taken,
    });
  }
  return own;
}

/** Choices of a group that is owed elsewhere: what the window gets for taking one of its visits in. */
function guestChoices(
  state: SiteState,
  window: DayWindow,
  places: readonly VisitPlace[],
  visitCents: Float64Array,
  regrets: PlaceRegrets,
): WindowChoice[] {
  const { problem } = state;
  return places.flatMap((one) => {
    const { visit, lane } = one;
    if (lane < 0 || !within(problem, window, lane)) return [];
    const cents = one.cents + heldCents(problem, one, regrets, (at) => !within(problem, window, at));
    if (cents >= visitCents[visit]) return [];
    const taken = hasPlace(state, one);
    const gain = cents - visitCents[visit];
    return [
      {
        visit,
        lane,
        takes: takes(problem, window, one),
        cents: gain,
        worthCents: -gain,
        owed: false,
        taken,
      },
    ];
  });
}

/** What is left of visits that begin before the window and stay into it: the window gets what their room is worth. */
function restChoices(
  state: SiteState,
  window: DayWindow,
  places: readonly VisitPlace[],
  regrets: PlaceRegrets,
): WindowChoice[] {
  const { problem } = state;
  const { laneDay } = problem.table;
  return places.flatMap((one) => {
    const { visit, lane, lanes } = one;
    if (lane < 0 || laneDay[lane] >= window.fromDay || !lanes.some((at) => within(problem, window, at)))
      return [];
    const gain = heldCents(problem, one, regrets, (at) => within(problem, window, at));
    const taken = hasPlace(state, one);
    return [
      {
        visit,
        lane,
        takes: takes(problem, window, one),
        cents: -gain,
        worthCents: gain,
        owed: false,
        rest: true as const,
        taken,
      },
    ];
  });
}

/** What a visit's room in some of its lanes is worth, cents. */
function heldCents(
  { bundles, table }: SiteState['problem'],
  { visit, lanes }: VisitPlace,
  { laneHeldCents }: PlaceRegrets,
  counts: (lane: number) => boolean,
): number {
  return lanes.reduce((sum, lane, i) => {
    if (!counts(lane)) return sum;
    const left = i < lanes.length - 1 ? 0 : table.laneCells[lane] - bundles[visit].length.lastCells;
    return sum + laneHeldCents(lane, left);
  }, 0);
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
