import type { DutyRules } from './dutyRules.ts';
import type { UnitDuty } from './dutyUnit.ts';
import { firstDayOf, lastDayOf, type MeterSet } from './meterSet.ts';
import type { MeterSeries } from './meterSeries.ts';

/** Distance and hours of a unit at its knots; straight in between. */
export interface UsageTable {
  /** knots, strictly rising; the first is the start, the last the end of the timeline */
  readonly days: Int32Array;
  /** true odometer, km */
  readonly km: Float64Array;
  /** hours since the first knot */
  readonly drive: Float64Array;
  readonly idle: Float64Array;
  readonly pto: Float64Array;
}

/** First and last knot at which a meter is known; low > high: not at all. */
export interface Known {
  readonly low: number;
  readonly high: number;
}

/** The knots with what meters tell laid on them, before the ends that no meter covers are filled. */
export interface Steps {
  readonly days: Int32Array;
  readonly km: Float64Array;
  readonly drive: Float64Array;
  readonly idle: Float64Array;
  readonly pto: Float64Array;
  readonly distance: Known;
  readonly hours: Known;
  readonly idleHours: Known;
  readonly ptoHours: Known;
  /** odometer on the first knot of `distance`, km; 0 where there is no odometer */
  readonly firstKm: number;
}

/** Days of all meters between start and end, each once. */
function knots(meters: MeterSet, startDay: number, endDay: number): Int32Array {
  const all = [meters.odometer, meters.hours, meters.idle, meters.pto];
  let room = 2;
  for (const series of all) room += series.days.length;
  const sorted = new Int32Array(room);
  sorted[0] = startDay;
  sorted[1] = endDay;
  let filled = 2;
  for (const { days } of all)
    for (let i = 0; i < days.length; i++)
      if (days[i] > startDay && days[i] < endDay) sorted[filled++] = days[i];
  const used = sorted.subarray(0, filled).sort();
  let count = 1;
  for (let i = 1; i < filled; i++) if (used[i] !== used[count - 1]) used[count++] = used[i];
  return used.slice(0, count);
}

/** A meter's totals on the knots, and which knots are readings of its own (or the ends of what it covers). */
interface Laid {
  readonly known: Known;
  readonly values: Float64Array;
  readonly readings: readonly number[];
}

function laid(series: MeterSeries, days: Int32Array): Laid {
  const values = new Float64Array(days.length);
  const readings: number[] = [];
  const count = series.days.length;
  if (count === 0) return { known: { low: 0, high: -1 }, values, readings };
  let low = 0;
  let high = days.length - 1;
  while (low < days.length && days[low] < firstDayOf(series)) low++;
  while (high >= 0 && days[high] > lastDayOf(series)) high--;
  let next = 0;
  for (let i = low; i <= high; i++) {
    while (next < count - 1 && series.days[next] < days[i]) next++;
    const after = series.days[next];
    if (after === days[i]) values[i] = series.values[next];
    else {
      const before = series.days[next - 1];
      const share = (days[i] - before) / (after - before);
      values[i] = series.values[next - 1] + share * (series.values[next] - series.values[next - 1]);
    }
    if (after === days[i] || i === low || i === high) readings.push(i);
  }
  return { known: { low, high }, values, readings };
}

// engine hours follow the distance, with a little for the days on which nothing was driven
const byDistance = 0.85;

/** Spreads each bracket's engine hours over its steps. */
function spreadHours(step: Float64Array, meter: Laid, km: Float64Array, days: Int32Array): void {
  for (let r = 1; r < meter.readings.length; r++) {
    const from = meter.readings[r - 1];
    const to = meter.readings[r];
    const total = meter.values[to] - meter.values[from];
    let driven = 0;
    for (let i = from; i < to; i++) driven += km[i];
    const span = days[to] - days[from];
    for (let i = from; i < to; i++) {
      const byDays = (days[i + 1] - days[i]) / span;
      step[i] = total * (driven > 0 ? byDistance * (km[i] / driven) + (1 - byDistance) * byDays : byDays);
    }
  }
}

/** Spreads each bracket's idle or stand-by hours in proportion to the engine hours. */
function spreadIn(step: Float64Array, meter: Laid, hours: Float64Array): void {
  for (let r = 1; r < meter.readings.length; r++) {
    const from = meter.readings[r - 1];
    const to = meter.readings[r];
    const total = meter.values[to] - meter.values[from];
    let sum = 0;
    for (let i = from; i < to; i++) sum += hours[i];
    for (let i = from; i < to; i++) step[i] = sum > 0 ? (total * hours[i]) / sum : 0;
  }
}

const inside = (known: Known, from: number, to: number): boolean => from >= known.low && to <= known.high;

/**
 * Lays a unit's meters on common knots and infers what one meter does not tell from the others: engine hours from
 * distance by driving speed and idle share, idle hours from distance per engine hour, distance from hours.
 * @param meters the unit's meters
 * @param duty the unit's duty for what is not metered
 * @param startDay first day of the timeline
 * @param endDay last day of the timeline
 * @returns steps between the knots; where neither odometer nor hours reach, they are 0
 */
export function meteredSteps(
  meters: MeterSet,
  duty: UnitDuty,
  rules: DutyRules,
  startDay: number,
  endDay: number,
): Steps {
  const days = knots(meters, startDay, endDay);
  const size = Math.max(0, days.length - 1);
  const km = new Float64Array(size);
  const hours = new Float64Array(size);
  const drive = new Float64Array(size);
  const idle = new Float64Array(size);
  const pto = new Float64Array(size);
  const odometer = laid(meters.odometer, days);
  const engine = laid(meters.hours, days);
  const idling = laid(meters.idle, days);
  const standing = laid(meters.pto, days);
  const distance = odometer.known;
  const metered = engine.known;
  const idleHours = idling.known;
  const ptoHours = standing.known;
  const firstKm = distance.high >= distance.low ? odometer.values[distance.low] : 0;
  for (let i = distance.low; i < distance.high; i++) km[i] = odometer.values[i + 1] - odometer.values[i];
  spreadHours(hours, engine, km, days);
  spreadIn(pto, standing, hours);
  spreadIn(idle, idling, hours);
  for (let r = 1; r < engine.readings.length; r++) {
    const from = engine.readings[r - 1];
    const to = engine.readings[r];
    let driven = 0;
    for (let i = from; i < to; i++) driven += km[i];
    const total = engine.values[to] - engine.values[from];
    const knowsPto = inside(ptoHours, from, to);
    const knowsIdle = inside(idleHours, from, to);
    const knowsKm = inside(distance, from, to) && !duty.hybrid;
    const share = knowsIdle || !knowsKm ? duty.idleShare.value : idleFromPace(driven, total, duty);
    for (let i = from; i < to; i++) {
      if (!knowsPto) pto[i] = duty.ptoShare.value * hours[i];
      if (!knowsIdle && !inside(idleHours, i, i + 1)) idle[i] = share * Math.max(0, hours[i] - pto[i]);
      pto[i] = Math.min(pto[i], 0.9 * hours[i]);
      idle[i] = Math.min(idle[i], 0.97 * (hours[i] - pto[i]));
      drive[i] = hours[i] - pto[i] - idle[i];
    }
    if (knowsKm && driven > 0)
      slowToBelievable(drive, from, to, driven, rules.fastSpeedKmh, duty.speedKmh.value);
  }
  const standingShare = Math.min(0.9, duty.ptoShare.value);
  const idleShare = Math.min(0.95 - standingShare, duty.idleShare.value * (1 - standingShare));
  const drivingShare = 1 - idleShare - standingShare;
  const engineShare = duty.hybrid ? rules.hybridDistanceShare : 1;
  for (let i = 0; i < size; i++) {
    if (inside(metered, i, i + 1)) {
      if (!inside(distance, i, i + 1)) km[i] = (drive[i] * duty.speedKmh.value) / engineShare;
    } else if (inside(distance, i, i + 1)) {
      drive[i] = (km[i] * engineShare) / duty.speedKmh.value;
      idle[i] = (drive[i] * idleShare) / drivingShare;
      pto[i] = (drive[i] * standingShare) / drivingShare;
    }
  }
  return { days, km, drive, idle, pto, distance, hours: metered, idleHours, ptoHours, firstKm };
}

/**
 * Idle share of a stretch whose distance and engine hours are known, not its idle hours: the unit's idle share and its
 * driving speed each tell one, weighted by their variances in ln(1 − share).
 */
export function idleFromPace(km: number, hours: number, duty: UnitDuty): number {
  if (hours <= 0) return duty.idleShare.value;
  const fromShare = Math.log(1 - duty.idleShare.value);
  const shareSd = Math.max(0.02, duty.idleShare.value * Math.max(duty.idleShare.spread, 0.3));
  if (km <= 0) return 0.97;
  const fromPace = Math.log(km / hours / duty.speedKmh.value);
  const paceSd = Math.max(0.1, duty.speedKmh.spread);
  const weight = shareSd ** 2 / (shareSd ** 2 + paceSd ** 2);
  const both = (1 - weight) * fromShare + weight * fromPace;
  return 1 - Math.exp(Math.min(-0.01, Math.max(-3.5, both)));
}

/** Driving hours too few for the distance are raised to what the unit's usual speed needs. */
function slowToBelievable(
  drive: Float64Array,
  from: number,
  to: number,
  km: number,
  fastest: number,
  usual: number,
): void {
  let total = 0;
  for (let i = from; i < to; i++) total += drive[i];
  if (km <= total * fastest) return;
  const factor = total > 0 ? km / Math.min(usual, fastest) / total : 0;
  for (let i = from; i < to; i++) drive[i] *= factor;
}
