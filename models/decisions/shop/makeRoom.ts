import type { Random } from '../../numeric/random.ts';
import type { SiteProblem } from './siteProblem.ts';
import type { SiteState } from './siteState.ts';
import { cheapestSplit } from './visitSplits.ts';

/** What each group costs where all room is free, cents. */
export function leastGroupCents({ bundles, splits, groupUnit }: SiteProblem): Float64Array {
  const cents = Float64Array.from(bundles, ({ order, searchCosts, firstDay, otherCents, otherMoveCents }) =>
    Math.min(otherCents + otherMoveCents, order.length === 0 ? Infinity : searchCosts[order[0] - firstDay]),
  );
  return Float64Array.from(groupUnit, (_, group) => cheapestSplit(splits, group, cents));
}

/**
 * Groups to take out so that a dear one finds room on a better day: it stands first, then whoever is in one lane of that
 * day, and of the days after it where its visit stays longer.
 * @param leastCents by group, as {@link leastGroupCents}
 * @returns null where the group that asks has no better day
 * Source: ejection chains, Glover, Discrete Applied Mathematics 65 (1996), value from memory.
 */
export function makeRoom(state: SiteState, leastCents: Float64Array, random: Random): number[] | null {
  const { problem, chosen, place, groupCents, dayBundles } = state;
  const { bundles, table } = problem;
  const rules = problem.inputs.rules.search.room;
  let dearest = -1;
  for (let k = 0; k < rules.groups; k++) {
    const group = Math.floor(random() * chosen.length);
    if (dearest < 0 || groupCents[group] - leastCents[group] > groupCents[dearest] - leastCents[dearest])
      dearest = group;
  }
  const visit = chosen[dearest][Math.floor(random() * chosen[dearest].length)] as number | undefined;
  if (visit === undefined) return null;
  const { order, firstDay, searchCosts, type, length } = bundles[visit];
  const stands = place[visit] >= 0 ? searchCosts[table.laneDay[place[visit]] - firstDay] : Infinity;
  let better = 0;
  while (better < Math.min(order.length, rules.days) && searchCosts[order[better] - firstDay] < stands)
    better += 1;
  if (better === 0) return null;
  const day = order[Math.floor(random() * better)];
  const need = table.typeSkills[type];
  const lanes: number[] = [];
  for (let lane = table.laneStart[day]; lane < table.laneStart[day + 1]; lane++)
    if ((table.laneSkills[lane] & need) === need && table.laneCells[lane] >= length.lastCells)
      lanes.push(lane);
  if (lanes.length === 0) return null;
  const out = new Set([dearest]);
  let lane = lanes[Math.floor(random() * lanes.length)];
  for (let k = 0; k <= length.fullDays && lane >= 0; k++, lane = table.laneNext[lane])
    for (const b of dayBundles[table.laneDay[lane]]) if (place[b] === lane) out.add(bundles[b].group);
  return [...out];
}
