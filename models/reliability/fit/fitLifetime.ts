import { cholesky, inverseOfFactor } from '../../numeric/cholesky.ts';
import { minimise } from '../../numeric/minimise.ts';
import type { Minimum, SecondOrderFunction } from '../../numeric/minimise.ts';
import { FitRefused } from './fitRefused.ts';
import { lifetimeLikelihood } from './lifetimeLikelihood.ts';
import { checkRows, failuresIn } from './lifetimeRows.ts';
import type { LifetimeRows } from './lifetimeRows.ts';
import { lognormalRow } from './lognormalRow.ts';
import { thinnedStart } from './thinnedStart.ts';
import { priorInWorkingSpace, workingSpace } from './workingSpace.ts';
import type { GaussianPrior, WorkingSpace } from './workingSpace.ts';
import { weibullRow } from './weibullRow.ts';

export type LifetimeKind = 'weibull' | 'lognormal' | 'exponential';

export interface LifetimeFitOptions {
  /** Gaussian priors; the answer is then the maximum a posteriori (MAP) */
  readonly prior?: GaussianPrior;
  /** a shape that is known rather than fitted (Weibayes) */
  readonly fixedShape?: number;
}

export interface LifetimeFit {
  readonly kind: LifetimeKind;
  /** log scale (log median for the lognormal) at covariates 0, then one coefficient per covariate */
  readonly coefficients: Float64Array;
  /** Weibull shape; 1/sd of ln T for the lognormal; 1 for the exponential */
  readonly shape: number;
  /** covariance of the coefficients and, unless fixed, the log shape last; row-major */
  readonly covariance: Float64Array;
  readonly parameterCount: number;
  readonly logLikelihood: number;
  /** weighted number of failures, found ones included */
  readonly failures: number;
  readonly steps: number;
}

/**
 * Lifetime distribution fitted to exact, right-, left- and interval-censored lifetimes with delayed entry: ln T = b0 + x'b +
 * W/shape (accelerated life), by maximum likelihood or, with priors, maximum a posteriori; covariance from the observed
 * information (Meeker & Escobar, Statistical Methods for Reliability Data, chapters 8, 11 and 17). R's survreg prints
 * 1/shape as its scale.
 * @param kind Weibull, lognormal or exponential
 * @param rows lifetimes in one unit of time; NIST's 20 specimens → shape 1.7208, exp(b0) 606.53
 * @returns the fit; times of its scale are in the unit of the rows
 * @throws RangeError for impossible rows; FitRefused when the data can't support a fit and no prior anchors it
 */
export function fitLifetime(
  kind: LifetimeKind,
  rows: LifetimeRows,
  options: LifetimeFitOptions = {},
): LifetimeFit {
  checkRows(rows);
  const fixedShape = kind === 'exponential' ? 1 : (options.fixedShape ?? null);
  if (fixedShape !== null && !(fixedShape > 0 && fixedShape < Infinity))
    throw new RangeError(`fixedShape must be above 0, got ${fixedShape}`);
  const space = workingSpace(rows, fixedShape === null, options.prior);
  const prior = priorInWorkingSpace(options.prior, space);
  const failures = failuresIn(rows);
  const sd = options.prior?.sd;
  const last = space.size - 1;
  if (failures === 0 && !(sd && sd[0] < Infinity && (fixedShape !== null || sd[last] < Infinity)))
    throw new FitRefused(
      'no_failures',
      'fitLifetime: no failure in the rows and no prior on the log scale and shape',
    );
  space.columns.constant.forEach((constant, j) => {
    if (constant && !(sd && sd[j + 1] < Infinity))
      throw new FitRefused('not_identified', `fitLifetime: covariate ${j} is constant and has no prior`);
  });
  const { values, means } = space.columns;
  const rowLikelihood = kind === 'lognormal' ? lognormalRow : weibullRow;
  const likelihood = lifetimeLikelihood(rows, values, means.length, rowLikelihood, fixedShape);
  const objective: SecondOrderFunction = (at, gradient, hessian) =>
    likelihood(at, gradient, hessian) + prior.add(at, gradient, hessian);
  const start = startingPoint(rows, space, failures, fixedShape, options.prior);
  const near = thinnedStart(rows, values, means.length, rowLikelihood, fixedShape, start);
  const found = (near && minimisedFrom(objective, near)) ?? minimise(objective, start, { maximumSteps: 200 });
  return answer(kind, found, start, space, fixedShape, prior.valueAt(found.at), failures);
}

/** The minimum found from a place, or null where the function has no value there or none is found. */
function minimisedFrom(objective: SecondOrderFunction, from: Float64Array): Minimum | null {
  try {
    const found = minimise(objective, from, { maximumSteps: 50 });
    return found.converged ? found : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function startingPoint(
  rows: LifetimeRows,
  space: WorkingSpace,
  failures: number,
  fixedShape: number | null,
  prior: GaussianPrior | undefined,
): Float64Array {
  const start = new Float64Array(space.size);
  const shape =
    prior && fixedShape === null && prior.sd[space.size - 1] < Infinity ? prior.mean[space.size - 1] : 0;
  if (fixedShape === null) start[space.size - 1] = shape;
  const power = fixedShape ?? Math.exp(shape);
  let logUnit = 0;
  for (let i = 0; i < rows.low.length; i++)
    logUnit = Math.max(logUnit, rows.high[i] < Infinity ? rows.high[i] : rows.low[i]);
  logUnit = Math.log(logUnit);
  // total exposure over failures in the power's own time: exact for a Weibull with that shape and no delayed entry
  let exposure = 0;
  for (let i = 0; i < rows.low.length; i++) {
    const end = rows.high[i] < Infinity ? 0.5 * (rows.low[i] + rows.high[i]) : rows.low[i];
    const weight = rows.weight ? rows.weight[i] : 1;
    exposure += weight * (Math.exp(power * (Math.log(end) - logUnit)) || 1e-12);
  }
  start[0] = logUnit + Math.log(exposure / Math.max(failures, 0.5)) / power;
  return start;
}

function answer(
  kind: LifetimeKind,
  found: Minimum,
  start: Float64Array,
  space: WorkingSpace,
  fixedShape: number | null,
  priorValue: number,
  failures: number,
): LifetimeFit {
  const { size } = space;
  const { at } = found;
  if (fixedShape === null && at[size - 1] > 6)
    throw new FitRefused(
      'shape_unbounded',
      'fitLifetime: the failures lie so close together that the shape has no upper bound',
    );
  const factor = cholesky(found.hessian, size, 1e-11);
  const inverse = factor && inverseOfFactor(factor, size);
  for (let j = 1; j < space.columns.means.length + 1; j++)
    if (Math.abs(at[j]) > 15 || (inverse && Math.sqrt(inverse[j * size + j]) > 15))
      throw new FitRefused(
        'separation',
        `fitLifetime: covariate ${j - 1} separates failed from running units without overlap`,
      );
  if (!inverse && space.columns.means.length > 0 && columnsIndependent(space))
    throw new FitRefused(
      'separation',
      'fitLifetime: the covariates separate failed from running units without overlap',
    );
  if (!inverse || Math.abs(at[0] - start[0]) > 60)
    throw new FitRefused(
      'not_identified',
      'fitLifetime: the rows do not determine all parameters and no prior does',
    );
  if (!found.converged)
    throw new FitRefused('not_converged', `fitLifetime: no maximum found in ${found.steps} steps`);
  const raw = space.toRaw(at);
  return {
    kind,
    coefficients: raw.slice(0, space.columns.means.length + 1),
    shape: fixedShape ?? Math.exp(at[size - 1]),
    covariance: space.covarianceToRaw(inverse),
    parameterCount: size,
    logLikelihood: -(found.value - priorValue),
    failures,
    steps: found.steps,
  };
}

/** Whether the standardised columns and the constant are linearly independent. */
function columnsIndependent(space: WorkingSpace): boolean {
  const { values, means } = space.columns;
  const terms = means.length + 1;
  const products = new Float64Array(terms * terms);
  for (let i = 0; i < values.length; i += means.length)
    for (let j = 0; j < terms; j++)
      for (let k = 0; k <= j; k++)
        products[j * terms + k] += (j ? values[i + j - 1] : 1) * (k ? values[i + k - 1] : 1);
  return cholesky(products, terms, 1e-10) !== null;
}
