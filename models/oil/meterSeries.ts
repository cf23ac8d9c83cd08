import { heaviestChain } from './meterChain.ts';
import type { MeterPoints } from './meterPoints.ts';
import type { MeterSwap } from './meterSwap.ts';
import { splitAtBreaks } from './meterBreaks.ts';

/** What a meter can do in a day. */
export interface MeterLimits {
  /** use above this many times the unit's usual daily use is not believed */
  readonly rateFactor: number;
  /** daily use that is always believed, and daily use that never is */
  readonly floorPerDay: number;
  readonly ceilingPerDay: number;
  readonly slackDays: number;
}

/** One meter as a true, never falling total: replaced meters are added up, impossible values left out. */
export interface MeterSeries {
  /** one point a day, in order */
  readonly days: Int32Array;
  readonly values: Float64Array;
  /** how many values on record were left out as impossible */
  readonly dropped: number;
  /** how many values on record there are */
  readonly recorded: number;
  /** days on which the meter must have been replaced or reset with no record of it */
  readonly unrecordedBreaks: readonly number[];
  /** true total less what the meter shows now */
  readonly offset: number;
  /** use a day as the middle of many spans tells it; null with fewer than two points */
  readonly usualPerDay: number | null;
}

/** Daily use as the median over spans of a sixth of the record: a few wrong values and a step do not move it. */
export function usualPerDay(days: ArrayLike<number>, values: ArrayLike<number>): number | null {
  const count = days.length;
  const half = Math.max(1, Math.floor(count / 6));
  const slopes = new Float64Array(count);
  let found = 0;
  for (let i = 0; i + half < count; i++) {
    const span = days[i + half] - days[i];
    if (span > 0) slopes[found++] = (values[i + half] - values[i]) / span;
  }
  if (found === 0) return null;
  const sorted = slopes.subarray(0, found).sort();
  return Math.max(0, sorted[Math.floor((found - 1) / 2)]);
}

interface Stretch {
  readonly days: number[];
  readonly values: number[];
  /** day of the swap that ends it; null: runs to the end or an unrecorded break follows */
  readonly swap: MeterSwap | null;
}

/**
 * Makes one never falling series of a meter. Recorded replacements come first; then, in each stretch, the fewest
 * values are dropped that make it go up no faster than the limits; a lasting step that no record explains is taken for
 * an unrecorded replacement and bridged at the usual use.
 * @param points values as recorded
 * @param swaps recorded replacements in order of day
 * @param limits what the meter can do in a day
 * @returns (0, 100), (10, 600), swap old 700 new 0 on day 12, (22, 500) → totals 100, 600, 700, 1200
 */
export function meterSeries(
  points: MeterPoints,
  swaps: readonly MeterSwap[],
  limits: MeterLimits,
): MeterSeries {
  const usual = usualPerDay(points.days, points.values);
  const few = points.days.length < 6;
  const limit =
    usual === null || few
      ? limits.ceilingPerDay
      : Math.min(limits.ceilingPerDay, Math.max(limits.floorPerDay, limits.rateFactor * usual));
  if (swaps.length === 0 && goesUp(points, limit, limits.slackDays)) return plain(points, usual);
  const stretches: Stretch[] = [];
  const breaks: number[] = [];
  let dropped = 0;
  let recorded = 0;
  for (const part of cutAtSwaps(points, swaps, limit, limits.slackDays)) {
    const pieces = splitAtBreaks(part.points, limit, limits.slackDays);
    pieces.forEach((piece, index) => {
      const keep = heaviestChain(piece.days, piece.values, piece.weights, limit, limits.slackDays);
      const days: number[] = [];
      const values: number[] = [];
      for (let i = 0; i < keep.length; i++) {
        recorded++;
        if (keep[i] === 1) {
          days.push(piece.days[i]);
          values.push(piece.values[i]);
        } else dropped++;
      }
      if (index > 0 && days.length > 0) breaks.push(days[0]);
      stretches.push({ days, values, swap: index === pieces.length - 1 ? part.swap : null });
    });
  }
  return { ...joined(stretches, usual ?? 0), dropped, recorded, unrecordedBreaks: breaks };
}

function goesUp(points: MeterPoints, limit: number, slackDays: number): boolean {
  const { days, values } = points;
  for (let i = 1; i < days.length; i++) {
    const step = values[i] - values[i - 1];
    if (step < 0 || step > limit * (days[i] - days[i - 1] + slackDays)) return false;
  }
  return true;
}

/** One value a day: the last of the day's kept ones. */
function oneADay(days: ArrayLike<number>, values: ArrayLike<number>) {
  const outDays = new Int32Array(days.length);
  const outValues = new Float64Array(days.length);
  let count = 0;
  for (let i = 0; i < days.length; i++) {
    if (count > 0 && outDays[count - 1] === days[i]) count--;
    outDays[count] = days[i];
    outValues[count] = values[i];
    count++;
  }
  return { days: outDays.subarray(0, count), values: outValues.subarray(0, count) };
}

function plain(points: MeterPoints, usual: number | null): MeterSeries {
  return {
    ...oneADay(points.days, points.values),
    dropped: 0,
    recorded: points.days.length,
    unrecordedBreaks: [],
    offset: 0,
    usualPerDay: usual,
  };
}

interface Part {
  readonly points: MeterPoints;
  readonly swap: MeterSwap | null;
}

/** Cuts the points at recorded replacements; a replacement that the values show nothing of is passed over. */
function cutAtSwaps(
  points: MeterPoints,
  swaps: readonly MeterSwap[],
  limit: number,
  slackDays: number,
): Part[] {
  const parts: Part[] = [];
  let rest = points;
  for (const swap of swaps) {
    const before = filtered(rest, (day, value) => day < swap.day || (day === swap.day && isOld(value, swap)));
    const after = filtered(rest, (day, value) => day > swap.day || (day === swap.day && !isOld(value, swap)));
    const known = swap.old !== null || swap.fresh !== null;
    if (!known && goesUp(rest, limit, slackDays)) continue;
    if (!known && (before.days.length === 0 || after.days.length === 0)) continue;
    parts.push({ points: withPoint(before, swap.day, swap.old), swap });
    rest = withPoint(after, swap.day, swap.fresh);
  }
  parts.push({ points: rest, swap: null });
  return parts;
}

function isOld(value: number, swap: MeterSwap): boolean {
  if (swap.old === null || swap.fresh === null) return swap.fresh === null ? true : value !== swap.fresh;
  return Math.abs(value - swap.old) <= Math.abs(value - swap.fresh);
}

function filtered(points: MeterPoints, take: (day: number, value: number) => boolean): MeterPoints {
  const chosen: number[] = [];
  for (let i = 0; i < points.days.length; i++) if (take(points.days[i], points.values[i])) chosen.push(i);
  return {
    days: Int32Array.from(chosen, (i) => points.days[i]),
    values: Float64Array.from(chosen, (i) => points.values[i]),
    weights: Float64Array.from(chosen, (i) => points.weights[i]),
  };
}

function withPoint(points: MeterPoints, day: number, value: number | null): MeterPoints {
  if (value === null) return points;
  for (let i = 0; i < points.days.length; i++)
    if (points.days[i] === day && points.values[i] === value) return points;
  const index = Array.from({ length: points.days.length + 1 }, (_, i) => i).sort((a, b) => {
    const dayA = points.days[a] ?? day;
    const dayB = points.days[b] ?? day;
    return dayA - dayB || (points.values[a] ?? value) - (points.values[b] ?? value);
  });
  return {
    days: Int32Array.from(index, (i) => points.days[i] ?? day),
    values: Float64Array.from(index, (i) => points.values[i] ?? value),
    weights: Float64Array.from(index, (i) => points.weights[i] ?? 1),
  };
}

/** The use between two stretches: after the old meter's last value and before the new one's first that are on record. */
function bridge(previous: Stretch, next: Stretch, usual: number): number {
  const lastDay = previous.days[previous.days.length - 1];
  const firstDay = next.days[0];
  const { swap } = previous;
  if (swap === null) return usual * Math.max(0, firstDay - lastDay);
  const before = usual * Math.max(0, swap.day - lastDay);
  const after = usual * Math.max(0, firstDay - swap.day);
  const startedAtNil = next.values[0] <= 3 * after;
  return before + (startedAtNil && swap.fresh === null ? next.values[0] : after);
}

/** Stretches with values; an empty one hands its replacement on to the stretch before. */
function withoutEmpty(stretches: readonly Stretch[]): readonly Stretch[] {
  const kept: Stretch[] = [];
  for (const stretch of stretches) {
    if (stretch.days.length > 0) kept.push(stretch);
    else if (kept.length > 0 && stretch.swap !== null)
      kept[kept.length - 1] = { ...kept[kept.length - 1], swap: stretch.swap };
  }
  return kept;
}

/** Adds the stretches up to one total. */
function joined(stretches: readonly Stretch[], usual: number) {
  const days: number[] = [];
  const values: number[] = [];
  let offset = 0;
  withoutEmpty(stretches).forEach((stretch, index, all) => {
    if (index > 0) {
      const previous = all[index - 1];
      const lastTotal = previous.values[previous.values.length - 1] + offset;
      offset = lastTotal + bridge(previous, stretch, usual) - stretch.values[0];
    }
    for (let i = 0; i < stretch.days.length; i++) {
      days.push(stretch.days[i]);
      values.push(stretch.values[i] + offset);
    }
  });
  return { ...oneADay(days, values), offset, usualPerDay: usualPerDay(days, values) };
}
