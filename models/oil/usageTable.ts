import type { DutyRules } from './dutyRules.ts';
import type { UnitDuty } from './dutyUnit.ts';
import { firstDayOf, lastDayOf, totalOn, type MeterSet } from './meterSet.ts';
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
  const all: number[] = [startDay, endDay];
  for (const series of [meters.odometer, meters.hours, meters.idle, meters.pto])
    for (let i = 0; i < series.days.length; i++)
      if (series.days[i] > startDay && series.days[i] < endDay) all.push(series.days[i]);
  const sorted = Int32Array.from(all).sort();
  let count = 1;
  for (let i = 1; i < sorted.length; i++) if (sorted[i] !== sorted[count - 1]) sorted[count++] = sorted[i];
  return sorted.slice(0, count);
}

function knownKnots(series: MeterSeries, days: Int32Array): Known {
  if (series.days.length === 0) return { low: 0, high: -1 };
  let low = 0;
  let high = days.length - 1;
  while (low < days.length && days[low] < firstDayOf(series)) low++;
  while (high >= 0 && days[high] > lastDayOf(series)) high--;
  return { low, high };
}

/** The knots at which a series has a reading, with both ends of what it covers. */
function readingKnots(series: MeterSeries, days: Int32Array, known: Known): number[] {
  const at: number[] = [];
  let next = 0;
  for (let i = known.low; i <= known.high; i++) {
    while (next < series.days.length && series.days[next] < days[i]) next++;
    const read = next < series.days.length && series.days[next] === days[i];
    if (read || i === known.low || i === known.high) at.push(i);
  }
  return at;
}

// engine hours follow the distance, with a little for the days on which nothing was driven
const byDistance = 0.85;

function spreadHours(
  step: Float64Array,
  from: number,
  to: number,
  total: number,
  weight: (i: number) => number,
  days: Int32Array,
): void {
  let weights = 0;
  for (let i = from; i < to; i++) weights += weight(i);
  const span = days[to] - days[from];
  for (let i = from; i < to; i++) {
    const byDays = (days[i + 1] - days[i]) / span;
    step[i] = total * (weights > 0 ? byDistance * (weight(i) / weights) + (1 - byDistance) * byDays : byDays);
  }
}

function spreadIn(step: Float64Array, from: number, to: number, total: number, base: Float64Array): void {
  let sum = 0;
  for (let i = from; i < to; i++) sum += base[i];
  for (let i = from; i < to; i++) step[i] = sum > 0 ? (total * base[i]) / sum : 0;
}

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
  const [km, hours, idle, pto, drive] = [0, 0, 0, 0, 0].map(() => new Float64Array(size));
  const distance = knownKnots(meters.odometer, days);
  const metered = knownKnots(meters.hours, days);
  const idleHours = knownKnots(meters.idle, days);
  const ptoHours = knownKnots(meters.pto, days);
  let before = distance.high >= distance.low ? totalOn(meters.odometer, days[distance.low]) : 0;
  const firstKm = before;
  for (let i = distance.low; i < distance.high; i++) {
    const after = totalOn(meters.odometer, days[i + 1]);
    km[i] = after - before;
    before = after;
  }
  const during = (series: MeterSeries, from: number, to: number) =>
    totalOn(series, days[to]) - totalOn(series, days[from]);
  const eachBracket = (series: MeterSeries, known: Known, take: (from: number, to: number) => void) => {
    const at = readingKnots(series, days, known);
    for (let i = 1; i < at.length; i++) take(at[i - 1], at[i]);
  };
  eachBracket(meters.hours, metered, (from, to) =>
    spreadHours(hours, from, to, during(meters.hours, from, to), (i) => km[i], days),
  );
  eachBracket(meters.pto, ptoHours, (from, to) =>
    spreadIn(pto, from, to, during(meters.pto, from, to), hours),
  );
  eachBracket(meters.idle, idleHours, (from, to) =>
    spreadIn(idle, from, to, during(meters.idle, from, to), hours),
  );
  const inside = (known: Known, from: number, to: number) => from >= known.low && to <= known.high;
  eachBracket(meters.hours, metered, (from, to) => {
    let total = 0;
    let driven = 0;
    for (let i = from; i < to; i++) {
      total += hours[i];
      driven += km[i];
    }
    const knowsPto = inside(ptoHours, from, to);
    const standing = knowsPto ? 0 : duty.ptoShare.value;
    const share =
      inside(distance, from, to) && !duty.hybrid ? idleFromPace(driven, total, duty) : duty.idleShare.value;
    const scale = driven > 0 && !duty.hybrid && inside(distance, from, to) ? driven : null;
    for (let i = from; i < to; i++) {
      if (!knowsPto) pto[i] = standing * hours[i];
      if (!inside(idleHours, i, i + 1)) idle[i] = share * Math.max(0, hours[i] - pto[i]);
      pto[i] = Math.min(pto[i], 0.9 * hours[i]);
      idle[i] = Math.min(idle[i], 0.97 * (hours[i] - pto[i]));
      drive[i] = hours[i] - pto[i] - idle[i];
    }
    if (scale !== null) slowToBelievable(drive, from, to, scale, rules.fastSpeedKmh, duty.speedKmh.value);
  });
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
