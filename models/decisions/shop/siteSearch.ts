import type { Random } from '../../numeric/random.ts';
import { leastGroupCents, makeRoom } from './makeRoom.ts';
import { insertGroup, removeGroup, restoreGroup, withoutBay, type SiteState } from './siteState.ts';

/** How much is searched. */
export interface SearchEffort {
  /** rounds of taking some visits out and putting them back */
  readonly rounds: number;
  /** most groups taken out in a round */
  readonly mostGroups: number;
  /** a round that costs this much more is kept about every third time at first, cents; falls to a hundredth */
  readonly heatCents: number;
}

const never = () => false;

/**
 * First plan: groups go in one after another at the room's prices, those with most to lose first (their cost a week from
 * the cheapest day, a long visit's first of all).
 */
export function buildFirst(state: SiteState, prices: Float64Array | null): void {
  const { problem } = state;
  const urgency = problem.groupUnit.map((_, g) => {
    let most = 0;
    for (let b = problem.splits.bundleStart[g]; b < problem.splits.bundleStart[g + 1]; b++) {
      const { order, costs, firstDay, length, otherCents } = problem.bundles[b];
      if (order.length === 0) continue;
      const week = order[Math.min(order.length - 1, 5)];
      const regret = Math.min(otherCents, costs[week - firstDay]) - costs[order[0] - firstDay];
      most = Math.max(most, regret + 1e6 * length.fullDays + 1e3 * length.lastCells);
    }
    return most;
  });
  const order = problem.groupUnit.map((_, g) => g).sort((a, b) => urgency[b] - urgency[a] || a - b);
  for (const group of order) insertGroup(state, group, prices, never);
}

/** Share of the rounds in which a dear group asks for room. */
const roomShare = 0.4;

/**
 * Ruin and recreate: takes the visits of some neighbouring days out, or those that lie where a dear one would rather be, and
 * puts them back where they are cheapest, in one of several orders; a dearer plan is kept with a chance that falls to
 * nothing; with no heat it never gets dearer.
 * Source: Schrimpf and others, Journal of Computational Physics 159 (2000); Christiaens and Vanden Berghe, Transportation
 * Science 54 (2020), values from memory.
 */
export function improve(state: SiteState, effort: SearchEffort, random: Random): void {
  const { problem, chosen, place, groupCents } = state;
  if (problem.groupUnit.length === 0) return;
  const skip = () => random() < 0.02;
  const leastCents = leastGroupCents(problem);
  const cooling = Math.log(100) / Math.max(1, effort.rounds);
  for (let round = 0; round < effort.rounds; round++) {
    const heat = effort.heatCents * Math.exp(-cooling * round);
    const room = random() < roomShare ? makeRoom(state, leastCents, random) : null;
    const out = room ?? pickGroups(state, 1 + Math.floor(random() * effort.mostGroups), random);
    let before = 0;
    const former = out.map((g) => {
      before += groupCents[g];
      return { visits: chosen[g], lanes: chosen[g].map((b) => place[b]), cents: groupCents[g] };
    });
    for (const g of out) removeGroup(state, g);
    // who asked for room comes first
    const again =
      room === null ? inOrder(state, out, random) : [out[0], ...inOrder(state, out.slice(1), random)];
    for (const g of again) insertGroup(state, g, null, skip);
    let after = 0;
    for (const g of out) after += groupCents[g];
    if (after <= before - heat * Math.log(1 - random())) continue;
    for (const g of out) removeGroup(state, g);
    out.forEach((g, i) => restoreGroup(state, g, former[i].visits, former[i].lanes, former[i].cents));
  }
}

/** Some groups with visits on neighbouring days, or wanting to be there. */
function pickGroups(
  { problem, chosen, place, dayBundles }: SiteState,
  count: number,
  random: Random,
): number[] {
  const { bundles, table, groupUnit } = problem;
  const first = Math.floor(random() * groupUnit.length);
  const picked = new Set([first]);
  const visit = chosen[first][Math.floor(random() * chosen[first].length)];
  const lane = visit === undefined ? withoutBay : place[visit];
  const wanted = visit === undefined ? undefined : bundles[visit].order[0];
  // half the time the neighbours of where it would rather be
  const day =
    lane >= 0 && random() < 0.5 ? table.laneDay[lane] : (wanted ?? (lane >= 0 ? table.laneDay[lane] : -1));
  if (day < 0) return [first];
  const spread = 1 + Math.floor(random() * 6);
  for (let tries = 0; tries < 4 * count && picked.size < count; tries++) {
    const near =
      dayBundles[Math.min(table.days.length - 1, Math.max(0, day + Math.floor((2 * random() - 1) * spread)))];
    if (near.length > 0) picked.add(bundles[near[Math.floor(random() * near.length)]].group);
  }
  return [...picked];
}

/** Order in which groups go back: by chance, the longest first, the dearest to shift first, or the earliest wish first. */
function inOrder({ problem }: SiteState, groups: readonly number[], random: Random): number[] {
  const { bundles, splits } = problem;
  const way = Math.floor(random() * 4);
  const key = groups.map((g) => {
    const bundle = bundles[splits.bundleStart[g + 1] - 1];
    const { order, costs, firstDay, length } = bundle;
    if (way === 0 || order.length === 0) return random();
    if (way === 1) return -length.cells + random();
    if (way === 2) {
      const near = order[Math.min(order.length - 1, 4)];
      return costs[order[0] - firstDay] - costs[near - firstDay];
    }
    return order[0];
  });
  return groups
    .map((_, i) => i)
    .sort((a, b) => key[a] - key[b])
    .map((i) => groups[i]);
}
