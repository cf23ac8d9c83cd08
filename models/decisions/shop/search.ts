import type { Random } from '../random.ts';
import { openJournal, rollBack } from './board.ts';
import { insertGroup, removeGroup, type DayOrder, type PlanState } from './planState.ts';
import { bundleUnused, type SiteProblem } from './siteProblem.ts';

/** How long and how boldly to search. */
export interface SearchEffort {
  /** rounds of taking visits off and putting them back */
  readonly rounds: number;
  /** cost rise that is accepted at the start and at the end, cents */
  readonly hotCents: number;
  readonly coldCents: number;
}

const skipChance = 0.02;
const widestDays = 15;

/**
 * Improves a complete plan: round after round a few visits around one day are taken off and put back in another order, by
 * true cost or by cost plus price of the hours; a dearer plan is kept with falling chance. Only the groups that moved are
 * evaluated. The plan ends at the best one met.
 * @returns cents of all groups
 * Source: ruin and recreate with threshold acceptance (Schrimpf et al., Journal of Computational Physics 159, 2000;
 * adjacent removal as in Christiaens and Vanden Berghe, Transportation Science 54, 2020), value from memory.
 */
export function searchPlan(
  plan: PlanState,
  order: DayOrder | null,
  effort: SearchEffort,
  random: Random,
): number {
  const { problem, board, bundleDay, groupCents } = plan;
  const groups = groupCents.length;
  const { groupBundleStart } = problem.splits;
  let total = groupCents.reduce((sum, cents) => sum + cents, 0);
  if (groups === 0 || problem.days.length === 0) return total;
  const traits = groupTraits(plan);
  let best = total;
  const bestDay = Int32Array.from(bundleDay);
  const bestCents = Float64Array.from(groupCents);
  const changed = new Set<number>();
  const ruin: Ruin = { groups: [], marked: new Uint8Array(groups) };
  const key = new Float64Array(groups);
  const oldCents = new Float64Array(groups);
  const oldDay: number[] = [];
  const cooling = effort.coldCents / effort.hotCents;

  for (let round = 0; round < effort.rounds; round++) {
    const warmth = effort.hotCents * cooling ** (round / effort.rounds);
    chooseGroups(plan, order, traits, ruin, random);
    openJournal(board);
    let before = 0;
    oldDay.length = 0;
    for (const group of ruin.groups) {
      before += groupCents[group]!;
      oldCents[group] = groupCents[group]!;
      for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++)
        if (bundleDay[b] !== bundleUnused) oldDay.push(b, bundleDay[b]!);
      removeGroup(plan, group);
    }
    const how = random();
    for (const group of ruin.groups) {
      if (how < 0.35) key[group] = random();
      else if (how < 0.5) key[group] = -traits.longest[group]! + 0.1 * random();
      else if (how < 0.8) key[group] = -traits.worthPerCell[group]! * (0.7 + 0.6 * random());
      else key[group] = -oldCents[group]! * (0.5 + random());
    }
    ruin.groups.sort((a, b) => key[a]! - key[b]!);
    const chosenOrder = order !== null && random() < 0.5 ? order : null;
    let after = 0;
    for (const group of ruin.groups) after += insertGroup(plan, group, chosenOrder, skipChance, random);
    if (after <= before - warmth * Math.log(1 - random())) {
      total += after - before;
      for (const group of ruin.groups) changed.add(group);
      if (total < best) {
        best = total;
        for (const group of changed) {
          bestCents[group] = groupCents[group]!;
          for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) bestDay[b] = bundleDay[b]!;
        }
        changed.clear();
      }
    } else {
      for (const group of ruin.groups) {
        groupCents[group] = oldCents[group]!;
        for (let b = groupBundleStart[group]!; b < groupBundleStart[group + 1]!; b++) bundleDay[b] = bundleUnused;
      }
      for (let i = 0; i < oldDay.length; i += 2) bundleDay[oldDay[i]!] = oldDay[i + 1]!;
      rollBack(board);
    }
    for (const group of ruin.groups) ruin.marked[group] = 0;
  }
  return best;
}

interface Ruin {
  groups: number[];
  readonly marked: Uint8Array;
}

interface GroupTraits {
  /** longest visit, cells */
  readonly longest: Float64Array;
  /** what a place in a bay saves for each cell, cents */
  readonly worthPerCell: Float64Array;
  /** cheapest cost of any one bundle, cents */
  readonly floorCents: Float64Array;
}

function groupTraits({ problem, cheapestAt }: PlanState): GroupTraits {
  const groups = problem.groupUnit.length;
  const longest = new Float64Array(groups);
  const worthPerCell = new Float64Array(groups);
  const floorCents = new Float64Array(groups).fill(Infinity);
  for (let b = 0; b < problem.bundleType.length; b++) {
    const group = problem.bundleGroup[b]!;
    const at = cheapestAt[b]!;
    const floor = at < 0 ? problem.bundleOtherCents[b]! : problem.costs[at]!;
    longest[group] = Math.max(longest[group]!, problem.typeCells[problem.bundleType[b]!]!);
    if (problem.bundleJobs[b]!.length === 1) worthPerCell[group] = worthPerCell[group]! + problem.bundleOtherCents[b]!;
    floorCents[group] = Math.min(floorCents[group]!, floor);
  }
  for (let group = 0; group < groups; group++)
    worthPerCell[group] = (worthPerCell[group]! - floorCents[group]!) / Math.max(1, longest[group]!);
  return { longest, worthPerCell, floorCents };
}

/** Picks a group that stands badly, or any, and groups on days around where it stands or would like to stand. */
function chooseGroups(
  { problem, board, bundleDay, groupCents }: PlanState,
  order: DayOrder | null,
  traits: GroupTraits,
  ruin: Ruin,
  random: Random,
): void {
  const { groupBundleStart } = problem.splits;
  const days = problem.days.length;
  const want = 3 + Math.floor(random() * 12);
  let seed = Math.floor(random() * groupCents.length);
  let centre = -1;
  if (random() < 0.7) {
    let worst = -Infinity;
    for (let draw = 0; draw < 5; draw++) {
      const group = Math.floor(random() * groupCents.length);
      const excess = groupCents[group]! - traits.floorCents[group]!;
      if (excess > worst) {
        worst = excess;
        seed = group;
      }
    }
    const first = groupBundleStart[seed]!;
    const bundle = first + Math.floor(random() * (groupBundleStart[seed + 1]! - first));
    if (order !== null && order.start[bundle + 1]! > order.start[bundle]!) {
      const away = Math.floor(random() * random() * 12);
      centre = order.days[Math.min(order.start[bundle + 1]! - 1, order.start[bundle]! + away)]!;
    }
  }
  for (let b = groupBundleStart[seed]!; centre < 0 && b < groupBundleStart[seed + 1]!; b++) centre = bundleDay[b]!;
  if (centre < 0) centre = Math.floor(random() * days);
  ruin.groups.length = 0;
  ruin.groups.push(seed);
  ruin.marked[seed] = 1;
  for (let away = 0; away < widestDays && ruin.groups.length < want; away++)
    for (let side = away === 0 ? 1 : -1; side <= 1; side += 2) {
      const day = centre + side * away;
      if (day < 0 || day >= days) continue;
      for (const bundle of board.dayVisits[day]!) {
        const group = problem.bundleGroup[bundle]!;
        if (ruin.marked[group] === 1 || ruin.groups.length >= want || random() < 0.5) continue;
        ruin.marked[group] = 1;
        ruin.groups.push(group);
      }
    }
}

/** Mean cost of standing one day off the cheapest, cents, at least 1: the measure for how bold the search is. */
export function dayStepCents(problem: SiteProblem, cheapestAt: Int32Array): number {
  let sum = 0;
  let count = 0;
  for (let b = 0; b < cheapestAt.length; b++) {
    const at = cheapestAt[b]!;
    if (at < 0 || at + 1 >= problem.bundleStart[b + 1]!) continue;
    const rise = problem.costs[at + 1]! - problem.costs[at]!;
    if (rise > 1e11) continue;
    sum += rise;
    count++;
  }
  return Math.max(1, count === 0 ? 1 : sum / count);
}
