import { exponential } from '../lifetime/exponential.ts';
import type { Lifetime } from '../lifetime/lifetime.ts';
import { lognormal } from '../lifetime/lognormal.ts';
import { weibull } from '../lifetime/weibull.ts';
import { normalQuantile } from '../../numeric/normal.ts';
import type { LifetimeFit } from './fitLifetime.ts';

/** The fitted distribution at given covariates (0 where left out). */
export function lifetimeAt(fit: LifetimeFit, covariates: readonly number[] = []): Lifetime {
  const scale = Math.exp(logScaleAt(fit, covariates));
  if (fit.kind === 'lognormal') return lognormal(scale, 1 / fit.shape);
  return fit.kind === 'exponential' ? exponential(scale) : weibull(fit.shape, scale);
}

export interface RangedTime {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** standard error of ln value */
  readonly logSe: number;
}

/**
 * Fitted life quantile with limits from the delta method on ln t (Meeker & Escobar, section 8.4): ln t = x'b + w/shape, where w
 * is the quantile of the standard smallest extreme value (or normal) distribution.
 * @param failedShare strictly between 0 and 1, e.g. 0.1 for the B10 life
 * @param coverage 0..1, e.g. 0.8 for an 80 % range
 * @returns time in the unit of the fit; genfan's B10 → 3137 h, logSe 0.3168
 */
export function lifetimeQuantile(
  fit: LifetimeFit,
  failedShare: number,
  coverage = 0.8,
  covariates: readonly number[] = [],
): RangedTime {
  if (!(failedShare > 0 && failedShare < 1))
    throw new RangeError(`failedShare must lie between 0 and 1, got ${failedShare}`);
  const deviate =
    fit.kind === 'lognormal' ? normalQuantile(failedShare) : Math.log(-Math.log1p(-failedShare));
  const terms = fit.coefficients.length;
  const slope = new Float64Array(fit.parameterCount);
  slope[0] = 1;
  for (let j = 1; j < terms; j++) slope[j] = covariates[j - 1] ?? 0;
  if (fit.parameterCount > terms) slope[terms] = -deviate / fit.shape;
  let variance = 0;
  for (let i = 0; i < slope.length; i++)
    for (let j = 0; j < slope.length; j++)
      variance += slope[i] * slope[j] * fit.covariance[i * fit.parameterCount + j];
  const logSe = Math.sqrt(Math.max(0, variance));
  const value = Math.exp(logScaleAt(fit, covariates) + deviate / fit.shape);
  const reach = normalQuantile(0.5 + coverage / 2) * logSe;
  return { value, low: value * Math.exp(-reach), high: value * Math.exp(reach), logSe };
}

function logScaleAt(fit: LifetimeFit, covariates: readonly number[]): number {
  let logScale = fit.coefficients[0];
  for (let j = 1; j < fit.coefficients.length; j++)
    logScale += fit.coefficients[j] * (covariates[j - 1] ?? 0);
  return logScale;
}
