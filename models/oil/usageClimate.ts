import type { Sourced } from '../schema/history.ts';
import { monthlyMeansC, type Site } from '../schema/site.ts';
import type { DutyRules } from './dutyRules.ts';
import { monthIndexOf, monthStarts } from './usageDay.ts';

/** Mean temperatures of a place over the months, with the sums that make a mean over any days cheap. */
export interface Climate {
  /** January to December, °C */
  readonly byMonthC: readonly number[];
  /** °C·days from the first month start on */
  readonly sums: Float64Array;
  /** true: from the site's own record */
  readonly recorded: boolean;
}

function climateOf(byMonthC: readonly number[], recorded: boolean): Climate {
  const sums = new Float64Array(monthStarts.length);
  for (let i = 1; i < sums.length; i++)
    sums[i] = sums[i - 1] + byMonthC[(i - 1) % 12] * (monthStarts[i] - monthStarts[i - 1]);
  return { byMonthC, sums, recorded };
}

/** Months that are not known, straight between their known neighbours around the year. */
function filledYear(means: readonly (number | null)[]): readonly number[] | null {
  const known = means.flatMap((value, month) => (value === null ? [] : [month]));
  if (known.length === 0) return null;
  return means.map((value, month) => {
    if (value !== null) return value;
    const before = [...known].reverse().find((other) => other < month) ?? known[known.length - 1] - 12;
    const after = known.find((other) => other > month) ?? known[0] + 12;
    const low = means[(before + 12) % 12] ?? 0;
    const high = means[after % 12] ?? 0;
    return low + ((high - low) * (month - before)) / (after - before);
  });
}

const bySite = new WeakMap<object, Climate>();

/**
 * The climate of a site, or the mild one of the catalog where the site or its temperatures are not on record.
 * One known month alone tells no season: it shifts the mild climate.
 */
export function siteClimate(site: Sourced<Site> | null, rules: DutyRules): Climate {
  const key: object = site ?? rules;
  const known = bySite.get(key);
  if (known !== undefined) return known;
  const means = site === null ? [] : monthlyMeansC(site);
  const recorded = means.filter((value) => value !== null).length;
  let climate: Climate;
  if (recorded === 0) climate = climateOf(rules.ambientByMonthC, false);
  else if (recorded < 3) {
    const shifts = means.flatMap((value, i) => (value === null ? [] : [value - rules.ambientByMonthC[i]]));
    const shift = shifts.reduce((sum, value) => sum + value, 0) / shifts.length;
    climate = climateOf(
      rules.ambientByMonthC.map((value) => value + shift),
      true,
    );
  } else climate = climateOf(filledYear(means) ?? rules.ambientByMonthC, true);
  bySite.set(key, climate);
  return climate;
}

function sumTo(climate: Climate, day: number): number {
  const month = monthIndexOf(day);
  return climate.sums[month] + (day - monthStarts[month]) * climate.byMonthC[month % 12];
}

/**
 * Mean ambient temperature over days, °C: the months' means weighted by their days.
 * @param climate a place
 * @param fromDay first day
 * @param toDay day after the last; the same day gives that month's mean
 * @returns January 0 and February 10 from 17 January to 15 February → 15·0 and 14·10 over 29 days, 4.83
 */
export function meanAmbientC(climate: Climate, fromDay: number, toDay: number): number {
  if (toDay <= fromDay) return climate.byMonthC[monthIndexOf(fromDay) % 12];
  return (sumTo(climate, toDay) - sumTo(climate, fromDay)) / (toDay - fromDay);
}
