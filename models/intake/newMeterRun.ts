import { isoFromDay } from '../schema/day.ts';
import type { MeterMend } from './meterMends.ts';
import { consistentRun, type MeterRule } from './meterSeries.ts';
import type { Stand } from './meterStands.ts';

/** Fewer values than these may all be slips of the pen. */
const leastValues = 3;

/**
 * Values that contradict the others but agree with each other, all on one side of a day and lower after it: the meter
 * was replaced and nobody wrote it down. The proposal names the day; without such a run it is null.
 * @param kept the values that stay, in order of day
 * @param left the values left out, in order of day
 */
export function newMeterRun(
  kept: readonly Stand[],
  left: readonly Stand[],
  rule: MeterRule,
): MeterMend | null {
  if (kept.length < 2 || left.length < leastValues || !consistentRun(left, rule).every((fits) => fits))
    return null;
  const leftFirst = (left[0]?.day ?? 0) < (kept[0]?.day ?? 0);
  const [before, after] = leftFirst ? [left, kept] : [kept, left];
  const last = before[before.length - 1];
  const first = after[0];
  if (last === undefined || first === undefined || last.day > first.day || last.value <= first.value)
    return null;
  return {
    how: 'meter_replaced',
    value: null,
    words: `${left.length} values agree with each other: if the meter was replaced between ${isoFromDay(last.day)} and ${isoFromDay(first.day)}, record a service with the work meter_replaced and the note old=${last.shown} new=${first.shown}, then have these tried again`,
  };
}
