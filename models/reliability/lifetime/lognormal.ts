import { logNormalDensity, logNormalTail } from '../../numeric/normalTail.ts';
import { normalQuantile } from '../../numeric/normal.ts';
import { requirePositive, requireShare } from './lifetime.ts';
import type { Lifetime } from './lifetime.ts';

/**
 * Lognormal lifetime: ln T is normal (NIST/SEMATECH e-Handbook 8.1.6.4; median T50, sigma σ).
 * @param median above 0, in the unit of time
 * @param logSd standard deviation of ln T, above 0
 * @returns the distribution; lognormal(100, 0.5).quantile(0.9) → 189.8
 * @throws RangeError when median or logSd is not above 0
 */
export function lognormal(median: number, logSd: number): Lifetime {
  requirePositive('median', median);
  requirePositive('logSd', logSd);
  const deviate = (time: number) => Math.log(time / median) / logSd;
  const logDensity = (time: number) =>
    time === 0 ? -Infinity : logNormalDensity(deviate(time)) - Math.log(logSd * time);
  const logSurvival = (time: number) => logNormalTail(deviate(time));
  return {
    logDensity,
    logSurvival,
    hazard: (time) => (time === 0 ? 0 : Math.exp(logDensity(time) - logSurvival(time))),
    quantile: (failedShare) => {
      requireShare(failedShare);
      return failedShare === 0 ? 0 : median * Math.exp(logSd * normalQuantile(failedShare));
    },
    mean: median * Math.exp(0.5 * logSd * logSd),
  };
}
