import { gammaQuantile } from '../../numeric/gammaQuantile.ts';
import { FitRefused } from './fitRefused.ts';
import { checkRows } from './lifetimeRows.ts';
import type { LifetimeRows } from './lifetimeRows.ts';

/** Gamma prior on scale^−shape: `failures` pseudo-failures in `exposure` = Σ time^shape. */
export interface WeibayesPrior {
  readonly failures: number;
  readonly exposure: number;
}

export interface Weibayes {
  readonly shape: number;
  /** scale at the mode with no prior: (exposure / failures)^(1/shape), in the unit of the rows */
  readonly scale: number;
  /** posterior gamma of scale^−shape: pseudo-failures and Σ (time^shape − entry^shape) */
  readonly failures: number;
  readonly exposure: number;
  /** posterior quantile of the scale, probability strictly between 0 and 1 */
  readonly scaleQuantile: (probability: number) => number;
}

/**
 * Weibull with a known shape: scale^−shape ~ Gamma(a + r, b + Σ(t^shape − entry^shape)) (Abernethy, The New Weibull Handbook;
 * the gamma posterior is the conjugate one). Exact and right-censored rows only.
 * @param shape above 0
 * @returns the bearing cage with shape 2 → scale 12320.34 h
 * @throws RangeError for a bad shape or an inspected row; FitRefused without failures and without a prior
 */
export function weibayes(
  shape: number,
  rows: LifetimeRows,
  prior: WeibayesPrior = { failures: 0, exposure: 0 },
): Weibayes {
  if (!(shape > 0 && shape < Infinity)) throw new RangeError(`shape must be above 0, got ${shape}`);
  checkRows(rows);
  let { failures, exposure } = prior;
  for (let i = 0; i < rows.low.length; i++) {
    const weight = rows.weight ? rows.weight[i] : 1;
    if (rows.high[i] < Infinity) {
      if (rows.high[i] !== rows.low[i])
        throw new RangeError(
          `row ${i}: weibayes takes exact and right-censored rows, got an interval up to ${rows.high[i]}`,
        );
      failures += weight;
    }
    exposure += weight * (rows.low[i] ** shape - (rows.entry ? rows.entry[i] ** shape : 0));
  }
  if (!(failures > 0))
    throw new FitRefused(
      'no_failures',
      'weibayes: no failure in the rows and no pseudo-failure in the prior',
    );
  return {
    shape,
    scale: (exposure / failures) ** (1 / shape),
    failures,
    exposure,
    scaleQuantile: (probability) => (exposure / gammaQuantile(failures, 1 - probability)) ** (1 / shape),
  };
}
