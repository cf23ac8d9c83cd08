import { gammaQuantile } from './gammaQuantile.ts';

/**
 * Quantile of the chi-square distribution, twice the gamma quantile of half the degrees.
 * @param degreesOfFreedom above 0
 * @param probability 0 up to, not including, 1
 * @returns chiSquareQuantile(2, 0.5) → 1.3862943611198906
 */
export function chiSquareQuantile(degreesOfFreedom: number, probability: number): number {
  return 2 * gammaQuantile(degreesOfFreedom / 2, probability);
}
