import type { Exposure } from './exposure.ts';

/** One point of a charge in the three measures that intervals are given in. */
export interface Amounts {
  readonly distanceKm: number;
  readonly engineHours: number;
  readonly days: number;
}
/** The measures of {@link Amounts}. */
export type Measure = keyof Amounts;

/** Engine hours of an exposure: driving, idle and loaded stand-by, h. */
export function engineHoursOf(exposure: Exposure): number {
  return exposure.distanceKm / exposure.speedKmh + exposure.idleHours + exposure.ptoHours;
}

/** The amounts of a multiple of an exposure; 10000 km of the mixed duty × 0.5 → 5000 km. */
export function amountsOf(exposure: Exposure, times = 1): Amounts {
  return {
    distanceKm: times * exposure.distanceKm,
    engineHours: times * engineHoursOf(exposure),
    days: times * exposure.days,
  };
}

/** The sum of two amounts. */
export function addAmounts(a: Amounts, b: Amounts): Amounts {
  return {
    distanceKm: a.distanceKm + b.distanceKm,
    engineHours: a.engineHours + b.engineHours,
    days: a.days + b.days,
  };
}

/** Amounts times a factor. */
export function timesAmounts(a: Amounts, factor: number): Amounts {
  return {
    distanceKm: a.distanceKm * factor,
    engineHours: a.engineHours * factor,
    days: a.days * factor,
  };
}

/** The measure that tells how far a duty has come: distance, else engine hours, else days. */
export function leadingMeasure(a: Amounts): Measure {
  if (a.distanceKm > 0) return 'distanceKm';
  return a.engineHours > 0 ? 'engineHours' : 'days';
}

/**
 * Where the coming stretches reach an amount of one measure; the last stretch goes on for ever.
 * @param coming stretches in order of time, at least one
 * @param measure which measure counts
 * @param amount of it, from now; 0 or below: now
 * @returns the point from now; null when the measure never grows that far
 */
export function pointAhead(coming: readonly Exposure[], measure: Measure, amount: number): Amounts | null {
  let passed: Amounts = { distanceKm: 0, engineHours: 0, days: 0 };
  if (amount <= 0) return passed;
  for (let i = 0; i < coming.length; i++) {
    const stretch = amountsOf(coming[i]);
    const left = amount - passed[measure];
    const last = i === coming.length - 1;
    if (stretch[measure] > 0 && (left <= stretch[measure] || last))
      return addAmounts(passed, timesAmounts(stretch, left / stretch[measure]));
    passed = addAmounts(passed, stretch);
  }
  return null;
}
