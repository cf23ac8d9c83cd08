import { emptyBoard, hasRoom, placeVisit, takeOff, type Board } from './board.ts';
import {
  bundleOutside,
  bundleUndone,
  bundleUnused,
  impossibleCents,
  type SiteProblem,
} from './siteProblem.ts';
import { cheapestSplit, splitChoice, type SplitChoice } from './splitChoice.ts';

/** A plan in the making: where every bundle stands and what every group costs. */
export interface PlanState {
  readonly problem: SiteProblem;
  readonly board: Board;
  /** day index, or bundleOutside, bundleUndone, bundleUnused */
  readonly bundleDay: Int32Array;
  readonly groupCents: Float64Array;
  /** position of each bundle's cheapest day in costs; -1 = none */
  readonly cheapestAt: Int32Array;
  readonly candidateCents: Float64Array;
  readonly candidateDay: Int32Array;
  readonly work: SplitChoice;
}

/** Days of each bundle in the order in which they are to be tried. */
export interface DayOrder {
  readonly start: Int32Array;
  readonly days: Int32Array;
  /** what stands for the cost, in the same places */
  readonly cents: Float64Array;
}

export function emptyPlan(problem: SiteProblem): PlanState {
  const bundles = problem.bundleType.length;
  const cheapestAt = new Int32Array(bundles).fill(-1);
  for (let b = 0; b < bundles; b++)
    for (let i = problem.bundleStart[b]!; i < problem.bundleStart[b + 1]!; i++)
      if (cheapestAt[b]! < 0 || problem.costs[i]! < problem.costs[cheapestAt[b]!]!) cheapestAt[b] = i;
  return {
    problem,
    board: emptyBoard(problem),
    bundleDay: new Int32Array(bundles).fill(bundleUnused),
    groupCents: new Float64Array(problem.groupUnit.length),
    cheapestAt,
    candidateCents: new Float64Array(bundles),
    candidateDay: new Int32Array(bundles),
    work: splitChoice(problem),
  };
}

/** Cost of a bundle where it stands, cents. */
export function standingCents(problem: SiteProblem, bundle: number, day: number): number {
  if (day === bundleOutside) return problem.bundleOutsideCents[bundle]!;
  if (day === bundleUndone) return problem.bundleUndoneCents[bundle]!;
  return problem.costs[problem.bundleStart[bundle]! + day - problem.bundleFirstDay[bundle]!]!;
}

/** Takes a group's visits off the plan. */
export function removeGroup(plan: PlanState, group: number): void {
  const { groupBundleStart } = plan.problem.splits;
  for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) {
    if (plan.bundleDay[b]! >= 0) takeOff(plan.board, b, plan.bundleDay[b]!);
    plan.bundleDay[b] = bundleUnused;
  }
}

/**
 * Puts a group on the plan in the cheapest way that has room, each bundle for itself on its first day with room.
 * @param order days in order of price; null = by true cost
 * @param skip chance of passing a day over, 0..1
 * @returns cents of the group
 */
export function insertGroup(
  plan: PlanState,
  group: number,
  order: DayOrder | null,
  skip: number,
  random: () => number,
): number {
  const { problem, work, candidateCents } = plan;
  const { groupBundleStart, stateStart, choiceBundle, choiceRest } = problem.splits;
  for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) {
    if (order === null) scanByCost(plan, b, skip, random);
    else scanByOrder(plan, b, order, skip, random);
  }
  cheapestSplit(problem, group, candidateCents, work);
  let cents = 0;
  for (let state = stateStart[group + 1]! - 1; state > stateStart[group]!; ) {
    const choice = work.stateChoice[state]!;
    cents += putBundle(plan, choiceBundle[choice]!, order, random);
    state = choiceRest[choice]!;
  }
  plan.groupCents[group] = cents;
  return cents;
}

/** Places a bundle as its candidate says; when that no longer holds, as well as it goes. */
function putBundle(plan: PlanState, bundle: number, order: DayOrder | null, random: () => number): number {
  const { problem, candidateDay } = plan;
  const fits = () => {
    const day = candidateDay[bundle]!;
    if (day === bundleUndone) return problem.bundleUndoneCents[bundle]! < impossibleCents;
    if (day === bundleOutside) return !unitBusyOutside(plan, bundle);
    return !unitBusyOn(plan, bundle, day) && placeVisit(plan.board, bundle, day);
  };
  let done = fits();
  if (!done) {
    if (order === null) scanByCost(plan, bundle, 0, random);
    else scanByOrder(plan, bundle, order, 0, random);
    done = fits();
  }
  if (done) {
    plan.bundleDay[bundle] = candidateDay[bundle]!;
    return standingCents(problem, bundle, candidateDay[bundle]!);
  }
  let cents = 0;
  const group = problem.bundleGroup[bundle]!;
  const { groupBundleStart } = problem.splits;
  for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) {
    if (problem.bundleJobs[b]!.length > 1 || !problem.bundleJobs[bundle]!.includes(problem.bundleJobs[b]![0]!)) continue;
    plan.bundleDay[b] = bundleUndone;
    cents += problem.bundleUndoneCents[b]!;
  }
  return cents;
}

/** Cheapest way without a bay, as a start for the scan. */
function startCandidate(plan: PlanState, bundle: number): void {
  const { problem } = plan;
  const outside = problem.bundleOutsideCents[bundle]!;
  const undone = problem.bundleUndoneCents[bundle]!;
  const away = outside < undone && !unitBusyOutside(plan, bundle);
  plan.candidateCents[bundle] = away ? outside : undone;
  plan.candidateDay[bundle] = away ? bundleOutside : bundleUndone;
}

/** First day with room, outward from the cheapest: the cost is convex but for days that are barred. */
function scanByCost(plan: PlanState, bundle: number, skip: number, random: () => number): void {
  const { problem } = plan;
  const { costs } = problem;
  const start = problem.bundleStart[bundle]!;
  const end = problem.bundleStart[bundle + 1]!;
  startCandidate(plan, bundle);
  const most = plan.candidateCents[bundle]!;
  const toDay = problem.bundleFirstDay[bundle]! - start;
  let left = plan.cheapestAt[bundle]!;
  let right = left + 1;
  if (left < 0) return;
  while (left >= start || right < end) {
    const before = left >= start ? costs[left]! : Infinity;
    const after = right < end ? costs[right]! : Infinity;
    const cents = before <= after ? before : after;
    const at = before <= after ? left-- : right++;
    if (cents >= impossibleCents) continue;
    if (cents >= most) return;
    if (skip > 0 && random() < skip) continue;
    if (!hasRoom(plan.board, bundle, at + toDay) || unitBusyOn(plan, bundle, at + toDay)) continue;
    plan.candidateCents[bundle] = cents;
    plan.candidateDay[bundle] = at + toDay;
    return;
  }
}

function scanByOrder(plan: PlanState, bundle: number, order: DayOrder, skip: number, random: () => number): void {
  startCandidate(plan, bundle);
  const most = plan.candidateCents[bundle]!;
  for (let i = order.start[bundle]!; i < order.start[bundle + 1]!; i++) {
    if (order.cents[i]! >= most) return;
    if (skip > 0 && random() < skip) continue;
    const day = order.days[i]!;
    if (!hasRoom(plan.board, bundle, day) || unitBusyOn(plan, bundle, day)) continue;
    plan.candidateCents[bundle] = order.cents[i]!;
    plan.candidateDay[bundle] = day;
    return;
  }
}

/** Whether another visit of the bundle's unit takes the day. */
function unitBusyOn(plan: PlanState, bundle: number, day: number): boolean {
  const { problem, bundleDay } = plan;
  const { groupBundleStart } = problem.splits;
  for (const group of problem.unitGroups[problem.groupUnit[problem.bundleGroup[bundle]!]!]!)
    for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) {
      if (bundleDay[b] === day) return true;
      if (bundleDay[b] !== bundleOutside) continue;
      const date = problem.days[day]!;
      if (date >= problem.bundleOutsideDay[b]! && date <= problem.bundleOutsideEnd[b]!) return true;
    }
  return false;
}

/** Whether another visit of the bundle's unit falls into the days it would be away. */
function unitBusyOutside(plan: PlanState, bundle: number): boolean {
  const { problem, bundleDay } = plan;
  const { groupBundleStart } = problem.splits;
  const from = problem.bundleOutsideDay[bundle]!;
  const to = problem.bundleOutsideEnd[bundle]!;
  for (const group of problem.unitGroups[problem.groupUnit[problem.bundleGroup[bundle]!]!]!)
    for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) {
      const day = bundleDay[b]!;
      if (b === bundle || day === bundleUnused || day === bundleUndone) continue;
      const first = day >= 0 ? problem.days[day]! : problem.bundleOutsideDay[b]!;
      const last = day >= 0 ? first : problem.bundleOutsideEnd[b]!;
      if (first <= to && last >= from) return true;
    }
  return false;
}
