import { laneTakes } from './laneTable.ts';
import type { LanePacker } from './lanePacking.ts';
import { wholeRoom } from './packingRoom.ts';
import type { SiteProblem } from './siteProblem.ts';
import { insertGroup, removeGroup, restoreGroup, unitFree, type SiteState } from './siteState.ts';
import type { VisitPairs } from './visitPairs.ts';
import { movePrices, type PriceSteps, type VisitPrices } from './visitPrices.ts';

/** How a first plan is read from the prices. */
export interface DiveEffort {
  /** steps between two rounds of settling */
  readonly prices: PriceSteps;
  /** a visit that lies on a day this often is settled there, share */
  readonly settledShare: number;
  /** least visits settled in a round, share of the groups that are left */
  readonly leastShare: number;
  /** long visits settle first, since no whole day is left for them later: a day's length counts as much as this share */
  readonly longFirst: number;
}

/** An earlier step counts this much less than the one after it. */
const fading = 0.94;
const leastOften = 0.25;

/**
 * First plan: visits that the packings put on the same day again and again are settled there, the prices move on for the
 * rest, until nothing more settles; what is left goes in where it is cheapest.
 * @param state empty; holds the plan afterwards
 * @param prices moved in place, cents
 * Source: diving with prices, as in column generation (Sadykov and others, INFORMS Journal on Computing 31(2), 2019), value
 * from memory.
 */
export function diveFirst(
  state: SiteState,
  pairs: VisitPairs,
  packer: LanePacker,
  prices: VisitPrices,
  { prices: steps, settledShare, leastShare, longFirst }: DiveEffort,
): void {
  const { problem, chosen, free, groupCents } = state;
  const { bundles, table, groupUnit, splits } = problem;
  const room = wholeRoom(problem, pairs);
  const often = new Map<number, number>();
  const laneCount = table.lanes.length;
  const laneOf = new Int32Array(bundles.length).fill(-1);
  const settle = (b: number, lane: number) => {
    const { group, searchCosts, firstDay, length } = bundles[b];
    const had = [...chosen[group]];
    const cents = had.length === 0 ? 0 : groupCents[group];
    laneOf[b] = lane;
    removeGroup(state, group);
    const visits = [...had, b];
    const own = searchCosts[table.laneDay[lane] - firstDay];
    restoreGroup(
      state,
      group,
      visits,
      visits.map((v) => laneOf[v]),
      cents + own,
    );
    prices.settledCents[b] = own;
    for (let k = 0, at = lane; k <= length.fullDays && at >= 0; k++, at = table.laneNext[at])
      room.laneCells[at] = free[at];
    closeOthers(problem, pairs, b, table.laneDay[lane], room, prices.settledCents);
  };
  for (let fixed = Infinity; fixed > 0;) {
    often.clear();
    let weight = 1;
    let total = 0;
    movePrices(problem, packer, room, prices, steps, true, (visits, lanes, count) => {
      for (let i = 0; i < count; i++) {
        const key = visits[i] * laneCount + lanes[i];
        often.set(key, (often.get(key) ?? 0) + weight);
      }
      total += weight;
      weight /= fading;
    });
    const left = chosen.reduce((sum, visits) => sum + (visits.length === 0 ? 1 : 0), 0);
    const least = Math.max(1, Math.ceil(leastShare * left));
    fixed = 0;
    for (const { b, day, share } of byShare(problem, often, total, longFirst)) {
      if (share < settledShare && fixed >= least) break;
      if (room.closed[b] === 1 || !unitFree(state, b, day)) continue;
      const lane = mostOftenLane(state, b, day, often);
      if (lane < 0) continue;
      settle(b, lane);
      fixed += 1;
    }
  }
  for (let group = 0; group < groupUnit.length; group++) {
    const jobs = new Set(chosen[group].flatMap((b) => bundles[b].jobs));
    let whole = true;
    for (let b = splits.bundleStart[group]; b < splits.bundleStart[group + 1]; b++)
      whole &&= bundles[b].jobs.every((job) => jobs.has(job));
    if (whole) continue;
    removeGroup(state, group);
    insertGroup(state, group, null, () => false);
  }
}

/** Visits and days in order of how often the packings had them, long ones first. */
function byShare(
  { table, bundles }: SiteProblem,
  often: ReadonlyMap<number, number>,
  total: number,
  longFirst: number,
) {
  const laneCount = table.lanes.length;
  const dayCount = table.days.length;
  const days = new Map<number, number>();
  for (const [key, weight] of often) {
    const at = Math.floor(key / laneCount) * dayCount + table.laneDay[key % laneCount];
    days.set(at, (days.get(at) ?? 0) + weight);
  }
  return [...days]
    .map(([at, weight]) => {
      const [b, share] = [Math.floor(at / dayCount), weight / total];
      const first = share + longFirst * Math.min(1, bundles[b].length.cells / table.dayCells);
      return { b, day: at % dayCount, share, first };
    })
    .filter(({ share }) => share > leastOften)
    .sort((a, b) => b.first - a.first || a.b - b.b || a.day - b.day);
}

/** The lane of the day that the packings chose most often, else the one that is filled best. */
function mostOftenLane(
  { problem, free }: SiteState,
  b: number,
  day: number,
  often: ReadonlyMap<number, number>,
): number {
  const { table, bundles } = problem;
  const { length, type } = bundles[b];
  const need = table.typeSkills[type];
  let best = -1;
  let most = -Infinity;
  for (let lane = table.laneStart[day]; lane < table.laneStart[day + 1]; lane++) {
    if (!laneTakes(table, free, lane, length, need)) continue;
    const spare = free[lane] - length.lastCells + (table.laneSkills[lane] !== need ? 0.5 : 0);
    const value = (often.get(b * table.lanes.length + lane) ?? 0) - 1e-3 * spare;
    if (value <= most) continue;
    most = value;
    best = lane;
  }
  return best;
}

/** Takes away what a settled visit rules out: other visits with its jobs, and its days for other visits of the unit. */
function closeOthers(
  { bundles, splits, unitGroups }: SiteProblem,
  pairs: VisitPairs,
  b: number,
  day: number,
  room: { readonly closed: Uint8Array; readonly banned: Uint8Array },
  settledCents: Float64Array,
): void {
  const { group, unit, jobs, length } = bundles[b];
  room.closed[b] = 1;
  for (let other = splits.bundleStart[group]; other < splits.bundleStart[group + 1]; other++)
    if (room.closed[other] === 0 && bundles[other].jobs.some((job) => jobs.includes(job))) {
      room.closed[other] = 1;
      settledCents[other] = Infinity;
    }
  for (const own of unitGroups[unit])
    for (let other = splits.bundleStart[own]; other < splits.bundleStart[own + 1]; other++)
      if (room.closed[other] === 0)
        for (let i = pairs.start[other]; i < pairs.start[other + 1]; i++)
          if (pairs.day[i] + bundles[other].length.fullDays >= day && pairs.day[i] <= day + length.fullDays)
            room.banned[i] = 1;
}
