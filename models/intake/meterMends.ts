import type { MeterPoint, MeterRule } from './meterSeries.ts';

/** Kilometres of a statute mile, exact by definition. */
export const kmPerMile = 1.609344;

/** A value proposed for one that does not fit, and how it came about. */
export interface MeterMend {
  readonly how: 'unit' | 'digits' | 'empty' | 'meter_replaced' | 'rollover' | 'date';
  /** metric, or an ISO day; null: leave it empty */
  readonly value: number | string | null;
  readonly words: string;
}

/** Where a value would have to lie: between its neighbours, as far as days allow. */
export interface Window {
  readonly low: number;
  readonly high: number;
  /** where it is expected, from the neighbours or the unit's usual pace */
  readonly expected: number;
}

/** The window of a day between two kept points; null without any. */
export function windowFor(
  day: number,
  before: MeterPoint | undefined,
  after: MeterPoint | undefined,
  gainPerDay: number | null,
  rule: MeterRule,
): Window | null {
  if (before !== undefined && after !== undefined) {
    const share = after.day === before.day ? 0.5 : (day - before.day) / (after.day - before.day);
    return {
      low: before.value,
      high: after.value,
      expected: before.value + share * (after.value - before.value),
    };
  }
  // At an end the window reaches three times the usual pace.
  const pace = gainPerDay ?? rule.perDay / 10;
  if (before !== undefined) {
    const days = day - before.day;
    return {
      low: before.value,
      high: before.value + 3 * pace * (days + 7),
      expected: before.value + pace * days,
    };
  }
  if (after !== undefined) {
    const days = after.day - day;
    return {
      low: Math.max(0, after.value - 3 * pace * (days + 7)),
      high: after.value,
      expected: Math.max(0, after.value - pace * days),
    };
  }
  return null;
}

/** One-slip neighbours of a whole number's digits: two swapped, one missing, one doubled, one wrong. */
function slipsOf(value: number): [number, string][] {
  const digits = String(Math.round(value));
  const slips: [number, string][] = [];
  for (let at = 0; at < digits.length - 1; at += 1)
    slips.push([
      Number(digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2)),
      'two digits swapped',
    ]);
  for (let at = 0; at <= digits.length; at += 1)
    for (let digit = 0; digit <= 9; digit += 1)
      slips.push([Number(digits.slice(0, at) + String(digit) + digits.slice(at)), 'one digit missing']);
  for (let at = 0; at < digits.length; at += 1)
    slips.push([Number(digits.slice(0, at) + digits.slice(at + 1)), 'one digit too many']);
  for (let at = 0; at < digits.length; at += 1)
    for (let digit = 0; digit <= 9; digit += 1)
      slips.push([Number(digits.slice(0, at) + String(digit) + digits.slice(at + 1)), 'one digit wrong']);
  return slips;
}

const ranks = ['two digits swapped', 'one digit missing', 'one digit too many', 'one digit wrong'];

/**
 * Proposes what a meter value was meant to be.
 * @param shown the value as its source wrote it, in the source's unit
 * @param factor stored value per unit of the source (1.609344 for miles, 1 for km or hours)
 * @param isDistance whether it could be in the other unit of distance
 */
export function mendFor(
  shown: number,
  factor: number,
  isDistance: boolean,
  window: Window,
): MeterMend | null {
  const fits = (value: number) => value >= window.low && value <= window.high;
  if (isDistance) {
    const other = factor === 1 ? shown * kmPerMile : shown;
    if (fits(other))
      return {
        how: 'unit',
        value: round(other),
        words: `${shown} fits when read in ${factor === 1 ? 'miles' : 'kilometers'}`,
      };
  }
  const slips = slipsOf(shown)
    .map(([value, words]) => ({ value: value * factor, plain: value, words }))
    .filter(({ value }) => fits(value));
  slips.sort(
    (a, b) =>
      ranks.indexOf(a.words) - ranks.indexOf(b.words) ||
      Math.abs(a.value - window.expected) - Math.abs(b.value - window.expected) ||
      a.value - b.value,
  );
  const [best] = slips;
  if (best === undefined) return null;
  return { how: 'digits', value: round(best.value), words: `${shown} may be ${best.plain}: ${best.words}` };
}

const round = (value: number) => Number(value.toPrecision(10));
