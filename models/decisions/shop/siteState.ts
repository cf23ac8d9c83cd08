import { laneTakes } from './laneTable.ts';
import type { Bundle, SiteProblem } from './siteProblem.ts';
import { cheapestSplit, chosenBundles } from './visitSplits.ts';

/** Where a visit stands: a lane's number, or one of these; without a bay is outside where that is offered, else left. */
export const notInPlan = -2;
export const withoutBay = -1;
export const leftUndone = -3;

/** A plan in the making. */
export interface SiteState {
  readonly problem: SiteProblem;
  /** cells left by lane */
  readonly free: Int32Array;
  /** lane in which each visit begins, {@link withoutBay} or {@link notInPlan} */
  readonly place: Int32Array;
  /** visits chosen for each group */
  readonly chosen: number[][];
  /** search cost of each group, cents */
  readonly groupCents: Float64Array;
  /** visits that touch each open day */
  readonly dayBundles: number[][];
  /** work space by visit */
  readonly tryCents: Float64Array;
  readonly tryLane: Int32Array;
}

/** A plan with nothing in it yet. */
export function emptyState(problem: SiteProblem): SiteState {
  return {
    problem,
    free: Int32Array.from(problem.table.laneCells),
    place: new Int32Array(problem.bundles.length).fill(notInPlan),
    chosen: problem.groupUnit.map(() => []),
    groupCents: new Float64Array(problem.groupUnit.length),
    dayBundles: problem.table.days.map(() => []),
    tryCents: new Float64Array(problem.bundles.length),
    tryLane: new Int32Array(problem.bundles.length),
  };
}

/** Takes all visits of a group out. */
export function removeGroup(state: SiteState, group: number): void {
  for (const b of state.chosen[group]) setPlace(state, b, notInPlan);
  state.chosen[group] = [];
}

/** Puts visits of a group back to where they were. */
export function restoreGroup(
  state: SiteState,
  group: number,
  visits: readonly number[],
  lanes: readonly number[],
  cents: number,
): void {
  visits.forEach((b, i) => setPlace(state, b, lanes[i]));
  state.chosen[group] = [...visits];
  state.groupCents[group] = cents;
}

/**
 * Puts a group in where it is cheapest with the room that is left: each possible visit looks for its cheapest day with a
 * lane free, then the cheapest split of the jobs is taken.
 * @param prices extra cost by type and day to keep scarce room for others; null = none
 * @param skip called for each day that would do; true = pass over it this time
 */
export function insertGroup(
  state: SiteState,
  group: number,
  prices: Float64Array | null,
  skip: () => boolean,
): void {
  const { problem, tryCents, tryLane } = state;
  const { splits } = problem;
  for (let b = splits.bundleStart[group]; b < splits.bundleStart[group + 1]; b++)
    tryCents[b] = findPlace(state, b, prices, skip);
  cheapestSplit(splits, group, tryCents);
  const visits = chosenBundles(splits, group);
  let cents = 0;
  const put = (b: number, lane: number) => {
    state.chosen[group].push(b);
    setPlace(state, b, lane);
    cents += placedCents(problem.bundles[b], problem, lane);
  };
  state.chosen[group] = [];
  for (const b of visits) {
    const { length, type, jobs, outside } = problem.bundles[b];
    const lane = tryLane[b];
    const stands =
      lane >= 0
        ? laneTakes(problem.table, state.free, lane, length, problem.table.typeSkills[type]) &&
          unitFree(state, b, problem.table.laneDay[lane])
        : lane === leftUndone || outsideFree(state, b);
    // a visit of the same group took the room
    if (!stands) findPlace(state, b, prices, skip);
    const stays = tryLane[b] >= 0 || (tryLane[b] === withoutBay && outside !== null);
    if (stays || jobs.length === 1) put(b, tryLane[b]);
    else
      // several jobs are not left undone as one, nor go where nobody takes them all
      for (let one = splits.bundleStart[group]; one < splits.bundleStart[group + 1]; one++) {
        const single = problem.bundles[one].jobs;
        if (single.length !== 1 || !jobs.includes(single[0])) continue;
        findPlace(state, one, prices, skip);
        put(one, tryLane[one]);
      }
  }
  state.groupCents[group] = cents;
}

/** Search cost of a visit in a lane or without a bay. */
export function placedCents(bundle: Bundle, { table }: SiteProblem, lane: number): number {
  if (lane < 0) return (lane === leftUndone ? bundle.leftCents : bundle.otherCents) + bundle.otherMoveCents;
  return bundle.searchCosts[table.laneDay[lane] - bundle.firstDay];
}

/** Looks for the cheapest place of one visit; leaves the lane in `tryLane` and returns the cost with prices. */
function findPlace(state: SiteState, b: number, prices: Float64Array | null, skip: () => boolean): number {
  const { problem, tryLane } = state;
  const bundle = problem.bundles[b];
  const { order, searchCosts, firstDay, type } = bundle;
  const days = problem.table.days.length;
  tryLane[b] = outsideFree(state, b) ? withoutBay : leftUndone;
  let best = placedCents(bundle, problem, tryLane[b]);
  for (let i = 0; i < order.length; i++) {
    const day = order[i];
    const cents = searchCosts[day - firstDay];
    if (cents >= best) break;
    const priced = prices === null ? cents : cents + prices[type * days + day];
    if (priced >= best) continue;
    const lane = findLane(state, bundle, day);
    if (lane < 0 || !unitFree(state, b, day) || skip()) continue;
    best = priced;
    tryLane[b] = lane;
    if (prices === null) break;
  }
  return best;
}

/** The lane of a day that the visit fills best, the former one first; −1 = none has room. */
function findLane({ problem, free }: SiteState, bundle: Bundle, day: number): number {
  const { table } = problem;
  const need = table.typeSkills[bundle.type];
  const { length, formerLane } = bundle;
  let best = -1;
  let least = Infinity;
  for (let lane = table.laneStart[day]; lane < table.laneStart[day + 1]; lane++) {
    if (free[lane] < (length.fullDays > 0 ? table.dayCells : length.lastCells)) continue;
    if (!laneTakes(table, free, lane, length, need)) continue;
    if (lane === formerLane) return lane;
    // people with rarer skills are kept for the jobs that need them
    const left = free[lane] - length.lastCells + (table.laneSkills[lane] !== need ? 0.5 : 0);
    if (left < least) {
      least = left;
      best = lane;
    }
  }
  return best;
}

/** Whether the unit has no other visit on the days of this one. */
export function unitFree({ problem, chosen, place }: SiteState, b: number, day: number): boolean {
  const { bundles, unitGroups, table } = problem;
  const last = day + bundles[b].length.fullDays;
  for (const group of unitGroups[bundles[b].unit])
    for (const other of chosen[group]) {
      const lane = place[other];
      if (other === b || lane === notInPlan) continue;
      const { outside, length } = bundles[other];
      if (lane >= 0) {
        const from = table.laneDay[lane];
        if (from <= last && from + length.fullDays >= day) return false;
      } else if (
        lane === withoutBay &&
        outside !== null &&
        outside.day <= table.days[last] &&
        outside.lastDay >= table.days[day]
      )
        return false;
    }
  return true;
}

/** Whether the unit has no other visit on the days that it would be outside; true where nothing is offered. */
function outsideFree({ problem, chosen, place }: SiteState, b: number): boolean {
  const { bundles, unitGroups, table } = problem;
  const offer = bundles[b].outside;
  if (offer === null) return true;
  for (const group of unitGroups[bundles[b].unit])
    for (const other of chosen[group]) {
      const lane = place[other];
      if (other === b || lane === notInPlan || lane === leftUndone) continue;
      const { outside, length } = bundles[other];
      const from = lane >= 0 ? table.days[table.laneDay[lane]] : (outside?.day ?? Infinity);
      const to =
        lane >= 0 ? table.days[table.laneDay[lane] + length.fullDays] : (outside?.lastDay ?? -Infinity);
      if (from <= offer.lastDay && to >= offer.day) return false;
    }
  return true;
}

function setPlace({ problem, free, place, dayBundles }: SiteState, b: number, lane: number): void {
  const { table, bundles } = problem;
  const { length } = bundles[b];
  const from = place[b];
  if (from >= 0) takeCells(free, table, from, length, 1);
  if (lane >= 0) takeCells(free, table, lane, length, -1);
  for (let k = 0; k <= length.fullDays; k++) {
    if (from >= 0) {
      const list = dayBundles[table.laneDay[from] + k];
      const at = list.indexOf(b);
      list[at] = list[list.length - 1];
      list.pop();
    }
    if (lane >= 0) dayBundles[table.laneDay[lane] + k].push(b);
  }
  place[b] = lane;
}

function takeCells(
  free: Int32Array,
  table: SiteProblem['table'],
  lane: number,
  { fullDays, lastCells }: Bundle['length'],
  sign: number,
): void {
  let at = lane;
  for (let k = 0; k < fullDays; k++) {
    free[at] += sign * table.dayCells;
    at = table.laneNext[at];
  }
  free[at] += sign * lastCells;
}
