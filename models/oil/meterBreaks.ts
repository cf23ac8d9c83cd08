import { heaviestChain } from './meterChain.ts';
import type { MeterPoints } from './meterPoints.ts';

const leastPoints = 3;
const deepest = 3;

const part = (points: MeterPoints, from: number, to: number): MeterPoints => ({
  days: points.days.subarray(from, to),
  values: points.values.subarray(from, to),
  weights: points.weights.subarray(from, to),
});

function keptWeight(points: MeterPoints, limit: number, slackDays: number): number {
  const keep = heaviestChain(points.days, points.values, points.weights, limit, slackDays);
  let total = 0;
  for (let i = 0; i < keep.length; i++) if (keep[i] === 1) total += points.weights[i];
  return total;
}

const middle = (a: number, b: number, c: number): number =>
  Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));

/** The place of the largest lasting step that no use explains: medians of three before against three after. */
function largestStep(points: MeterPoints, limit: number): number {
  const { days, values } = points;
  let place = -1;
  let largest = 0;
  for (let k = leastPoints; k + leastPoints <= days.length; k++) {
    const before = middle(values[k - 3], values[k - 2], values[k - 1]);
    const after = middle(values[k], values[k + 1], values[k + 2]);
    const possible = limit * (days[k + 1] - days[k - 2] + 1);
    const step = after < before ? before - after : after - before - possible;
    const here = Math.abs(values[k] - values[k - 1]);
    const size = step > 0 ? step + here * 1e-6 : 0;
    if (size > largest) {
      largest = size;
      place = k;
    }
  }
  return place;
}

/**
 * Splits a meter's points where it must have been replaced or reset with no record of it: keeping both sides saves at
 * least three values against dropping one of them.
 * @param points values in order of day
 * @param limit largest believable use a day
 * @param slackDays days that same-day readings may be apart beyond their dates
 * @returns one part, or more in order of day
 */
export function splitAtBreaks(
  points: MeterPoints,
  limit: number,
  slackDays: number,
  depth = deepest,
): readonly MeterPoints[] {
  const count = points.days.length;
  if (depth === 0 || count < 2 * leastPoints) return [points];
  const whole = keptWeight(points, limit, slackDays);
  let total = 0;
  for (let i = 0; i < count; i++) total += points.weights[i];
  if (total - whole < leastPoints) return [points];
  const place = largestStep(points, limit);
  if (place < 0) return [points];
  const left = part(points, 0, place);
  const right = part(points, place, count);
  const keptLeft = keptWeight(left, limit, slackDays);
  const keptRight = keptWeight(right, limit, slackDays);
  if (keptLeft < leastPoints || keptRight < leastPoints) return [points];
  if (keptLeft + keptRight - whole < leastPoints) return [points];
  return [
    ...splitAtBreaks(left, limit, slackDays, depth - 1),
    ...splitAtBreaks(right, limit, slackDays, depth - 1),
  ];
}
