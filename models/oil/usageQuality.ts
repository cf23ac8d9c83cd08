import type { OilCharge } from './charge.ts';
import type { DutyRules } from './dutyRules.ts';
import type { MeterSeries } from './meterSeries.ts';

const windowDays = 730;

/** Days of a window that a meter covers; a stretch between two readings counts up to the longest that is known. */
function coveredDays(series: MeterSeries, from: number, to: number, gapDays: number): number {
  const { days } = series;
  let covered = 0;
  for (let i = 1; i < days.length; i++) {
    const span = days[i] - days[i - 1];
    const inside = Math.min(to, days[i]) - Math.max(from, days[i - 1]);
    if (inside > 0) covered += inside * Math.min(1, gapDays / span);
  }
  if (days.length > 0) {
    const after = Math.min(to, days[days.length - 1] + gapDays / 2) - Math.max(from, days[days.length - 1]);
    if (after > 0) covered += after;
  }
  return covered;
}

/**
 * Share of the last two years with meters, drains and grades known, each a third. Days before the unit was in service
 * do not count; days without records do, so that a gap never helps.
 * @param meters odometer and engine hours; the better covered one counts
 * @param charges the unit's oil charges
 * @param disagree meters that contradict each other count half
 * @param beginDay in-service day, or null where it is not known
 * @param endDay as-of day or disposal
 * @returns 0..1; two years of monthly readings and drains with grades → 1
 */
export function recordQuality(
  meters: readonly MeterSeries[],
  charges: readonly OilCharge[],
  disagree: boolean,
  beginDay: number | null,
  endDay: number,
  rules: DutyRules,
): number {
  const from = Math.max(endDay - windowDays, beginDay ?? -Infinity);
  const span = endDay - from;
  if (span <= 0) return beginDay === null ? 0 : 1;
  const metered = Math.max(0, ...meters.map((one) => coveredDays(one, from, endDay, rules.meterGapDays)));
  let drains = 0;
  let grades = 0;
  for (const charge of charges) {
    const inside = Math.min(endDay, charge.endDay) - Math.max(from, charge.startDay);
    if (inside <= 0) continue;
    const sure = inside * (1 - charge.hiddenDrainChance);
    if (charge.startBasis !== 'first_record') drains += sure;
    if (charge.grade !== null) grades += sure;
  }
  const meterShare = (metered / span) * (disagree ? 0.5 : 1);
  return Math.min(1, Math.max(0, (meterShare + drains / span + grades / span) / 3));
}
