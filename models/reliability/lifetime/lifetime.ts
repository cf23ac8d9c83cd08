/**
 * A lifetime distribution with its parameters fixed. Times are in the unit of the scale (km, h, days); all times 0 or above.
 */
export interface Lifetime {
  /** log of the density at a time, per unit of time */
  readonly logDensity: (time: number) => number;
  /** log of the chance of surviving past a time, 0 or below */
  readonly logSurvival: (time: number) => number;
  /** failure rate at a time among those still running, per unit of time */
  readonly hazard: (time: number) => number;
  /** time by which a share of the population has failed; share 0 up to, not including, 1 */
  readonly quantile: (failedShare: number) => number;
  /** mean life */
  readonly mean: number;
}

/** Throws when a parameter of a lifetime distribution is not a finite number above 0. */
export function requirePositive(name: string, value: number): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${name} must be above 0, got ${value}`);
}

/** Throws when a failed share lies outside [0, 1). */
export function requireShare(value: number): void {
  if (!(value >= 0 && value < 1))
    throw new RangeError(`failedShare must lie from 0 to below 1, got ${value}`);
}
