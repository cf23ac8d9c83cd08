import { gammaln } from 'simple-statistics';
import { requirePositive, requireShare } from './lifetime.ts';
import type { Lifetime } from './lifetime.ts';

/**
 * Weibull lifetime: S(t) = exp{−(t/scale)^shape} (NIST/SEMATECH e-Handbook 8.1.6.2; shape β or γ, scale η or α).
 * @param shape above 0; above 1 the failure rate rises with age
 * @param scale above 0, the age by which 63.2 % have failed, in the unit of time
 * @returns the distribution; weibull(2, 100).quantile(0.1) → 32.459
 * @throws RangeError when shape or scale is not above 0
 */
export function weibull(shape: number, scale: number): Lifetime {
  requirePositive('shape', shape);
  requirePositive('scale', scale);
  const cumulative = (time: number) => (time / scale) ** shape;
  return {
    logDensity: (time) =>
      time === 0 && shape === 1
        ? -Math.log(scale)
        : Math.log(shape / scale) + (shape - 1) * Math.log(time / scale) - cumulative(time),
    logSurvival: (time) => -cumulative(time),
    hazard: (time) => (shape / scale) * (time / scale) ** (shape - 1),
    quantile: (failedShare) => {
      requireShare(failedShare);
      return scale * (-Math.log1p(-failedShare)) ** (1 / shape);
    },
    mean: scale * Math.exp(gammaln(1 + 1 / shape)),
  };
}
