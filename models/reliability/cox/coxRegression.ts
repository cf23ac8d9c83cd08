import { FitRefused } from '../fit/fitRefused.ts';
import { standardise } from '../fit/standardise.ts';
import { cholesky, inverseOfFactor } from '../../numeric/cholesky.ts';
import { minimise } from '../../numeric/minimise.ts';
import type { CoxRows } from './coxRows.ts';
import { cumulativeBaseline, partialLikelihood } from './partialLikelihood.ts';
import { sortForSweep } from './riskSweep.ts';

export interface CoxFit {
  readonly coefficients: Float64Array;
  /** covariance of the coefficients, row-major */
  readonly covariance: Float64Array;
  readonly logLikelihood: number;
  /** the same with all coefficients 0 */
  readonly logLikelihoodAtZero: number;
  /** chance that a unit with given covariates survives past a time, inside the observed range */
  readonly survival: (time: number, covariates: ArrayLike<number>) => number;
}

/**
 * Cox's proportional hazards regression with Efron's handling of ties and delayed entry (Cox 1972; Efron, JASA 72, 1977): a
 * diagnostic beside the parametric fits, since it needs no shape of the hazard.
 * @returns lung on age, sex, ecog → 0.01107, −0.5526, 0.4637
 * @throws FitRefused without failures, with a constant or collinear covariate, or when covariates separate the failed
 */
export function coxRegression(rows: CoxRows): CoxFit {
  const count = rows.covariateCount;
  const columns = standardise(rows.covariates, count, undefined, () => false);
  const constant = columns.constant.indexOf(true);
  if (constant >= 0)
    throw new FitRefused('not_identified', `coxRegression: covariate ${constant} is constant`);
  const sorted = sortForSweep(rows, columns.values);
  if (sorted.events === 0) throw new FitRefused('no_failures', 'coxRegression: no failure in the rows');
  const evaluate = partialLikelihood(sorted, count);
  const start = new Float64Array(count);
  const atZero = -evaluate(start, new Float64Array(count), new Float64Array(count * count));
  const found = minimise(evaluate, start, { maximumSteps: 60 });
  const factor = cholesky(found.hessian, count, 1e-10);
  const inverse = factor && inverseOfFactor(factor, count);
  const runsOff = (value: number, j: number) =>
    Math.abs(value) > (inverse ? 15 : 3) || (inverse !== null && inverse[j * count + j] > 225);
  if (found.at.some(runsOff))
    throw new FitRefused('separation', 'coxRegression: the covariates separate failed from running units');
  if (!inverse)
    throw new FitRefused(
      'not_identified',
      'coxRegression: the covariates are not independent of one another',
    );
  if (!found.converged) throw new FitRefused('not_converged', 'coxRegression: no maximum found');
  const coefficients = found.at.map((value, j) => value / columns.sds[j]);
  const steps = cumulativeBaseline(sorted, count, found.at);
  return {
    coefficients,
    covariance: inverse.map(
      (value, k) => value / columns.sds[Math.floor(k / count)] / columns.sds[k % count],
    ),
    logLikelihood: -found.value,
    logLikelihoodAtZero: atZero,
    survival: (time, covariates) => {
      let score = 0;
      for (let j = 0; j < count; j++) score += coefficients[j] * (covariates[j] - columns.means[j]);
      let hazard = 0;
      for (let k = 0; k < steps.length && steps[k].time <= time; k++) hazard = steps[k].cumulative;
      return Math.exp(-hazard * Math.exp(score));
    },
  };
}
