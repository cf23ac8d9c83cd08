import { errorFunction } from 'simple-statistics';

/** Density of the standard normal distribution; 0 → 0.3989. */
export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/** Standard normal distribution function; 1.2816 → 0.9. Source: simple-statistics' error function, error below 1.2e-7. */
export function normalCdf(z: number): number {
  if (!Number.isFinite(z)) return z > 0 ? 1 : 0;
  return (1 + errorFunction(z / Math.SQRT2)) / 2;
}

/** Standard deviations from the middle to either end of an 80 % range. */
export const rangeDeviations = 1.2815515655446004;
