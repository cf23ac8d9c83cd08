import type { DayWindow } from './dayWindows.ts';
import type { LanePacking } from './lanePacking.ts';
import type { SiteProblem } from './siteProblem.ts';

/**
 * Stretches of days on which room is worth something, with some days beside them; stretches that meet are one.
 * @param packing of all lanes by the visits' prices
 * @param visitCents these prices, cents
 * @param leastLaneCents a day counts where a lane's room is worth more than this on average
 */
export function dearStretches(
  { bundles, table }: SiteProblem,
  { visits, lanes, count }: LanePacking,
  visitCents: Float64Array,
  leastLaneCents: number,
  daysBeside: number,
): readonly DayWindow[] {
  const { laneDay, laneStart, days } = table;
  const worth = new Float64Array(days.length);
  for (let i = 0; i < count; i++) {
    const { costs, firstDay, length } = bundles[visits[i]];
    const day = laneDay[lanes[i]];
    const cents = (visitCents[visits[i]] - costs[day - firstDay]) / (length.fullDays + 1);
    for (let d = day; d <= day + length.fullDays && d < days.length; d++) worth[d] += cents;
  }
  const stretches: DayWindow[] = [];
  for (let d = 0; d < days.length; d++) {
    if (worth[d] <= leastLaneCents * (laneStart[d + 1] - laneStart[d])) continue;
    const last = stretches.at(-1);
    const toDay = Math.min(days.length, d + 1 + daysBeside);
    const fromDay = Math.max(0, d - daysBeside);
    if (last !== undefined && fromDay <= last.toDay) stretches[stretches.length - 1] = { ...last, toDay };
    else stretches.push({ fromDay, toDay });
  }
  return stretches;
}
