import type { DayWindow } from './dayWindows.ts';
import type { LanePacking } from './lanePacking.ts';
import type { SiteProblem } from './siteProblem.ts';
import type { SlotRules } from './windowRules.ts';

/**
 * Stretches of days on which room is worth something, with some days beside them; stretches that meet are one, unless it
 * would have too many lanes.
 * @param packing of all lanes by the visits' prices
 * @param visitCents these prices, cents
 * @param rules a day counts where a lane's room is worth more than `leastLaneCents` on average
 */
export function dearStretches(
  { bundles, table }: SiteProblem,
  { visits, lanes, count }: LanePacking,
  visitCents: Float64Array,
  { leastLaneCents, daysBeside, mostLanes }: SlotRules,
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
    const meets = last !== undefined && fromDay <= last.toDay;
    if (meets && laneStart[toDay] - laneStart[last.fromDay] <= mostLanes)
      stretches[stretches.length - 1] = { ...last, toDay };
    else if (!meets || toDay > last.toDay) stretches.push({ fromDay: meets ? last.toDay : fromDay, toDay });
  }
  return stretches;
}
