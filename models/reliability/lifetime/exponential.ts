import { requirePositive, requireShare } from './lifetime.ts';
import type { Lifetime } from './lifetime.ts';

/**
 * Exponential lifetime, the one without ageing: S(t) = exp(−t/mean) (NIST/SEMATECH e-Handbook 8.1.6.1).
 * @param mean above 0, in the unit of time
 * @returns the distribution; exponential(100).hazard(7) → 0.01
 * @throws RangeError when mean is not above 0
 */
export function exponential(mean: number): Lifetime {
  requirePositive('mean', mean);
  return {
    logDensity: (time) => -Math.log(mean) - time / mean,
    logSurvival: (time) => -time / mean,
    hazard: () => 1 / mean,
    quantile: (failedShare) => {
      requireShare(failedShare);
      return -mean * Math.log1p(-failedShare);
    },
    mean,
  };
}
