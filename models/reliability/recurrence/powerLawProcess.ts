import { fitLifetime } from '../fit/fitLifetime.ts';
import type { GaussianPrior } from '../fit/workingSpace.ts';
import type { RepairHistory } from '../nonparametric/meanCumulativeFunction.ts';

export interface PowerLawProcess {
  /** above 1: repairs come ever faster */
  readonly shape: number;
  /** age by which one repair is expected */
  readonly scale: number;
  /** covariance of log scale and log shape, row-major */
  readonly covariance: Float64Array;
  readonly logLikelihood: number;
  /** expected repairs of one unit from one age to another */
  readonly expectedRepairs: (from: number, to: number) => number;
}

/**
 * Power-law (Crow) process of repairs that leave a unit as old as it was: expected repairs by age t are (t/scale)^shape (NIST/
 * SEMATECH e-Handbook 8.1.7.2; IEC 61164). Its likelihood is that of Weibull lifetimes: each repair one with entry at its own
 * age, each unit one still running at its end.
 * @returns 41 engines' valve seats → shape 1.3996, scale 553.6 d
 * @throws RangeError for impossible histories; FitRefused without repairs and without a prior
 */
export function powerLawProcess(units: readonly RepairHistory[], prior?: GaussianPrior): PowerLawProcess {
  const low: number[] = [];
  const high: number[] = [];
  const entry: number[] = [];
  units.forEach(({ repairs, start = 0, end }, unit) => {
    for (const time of repairs) {
      if (!(time > start && time <= end))
        throw new RangeError(`unit ${unit}: repair must lie after ${start} and up to ${end}, got ${time}`);
      low.push(time);
      high.push(time);
      entry.push(time);
    }
    low.push(end);
    high.push(Infinity);
    entry.push(start);
  });
  const rows = {
    low: Float64Array.from(low),
    high: Float64Array.from(high),
    entry: Float64Array.from(entry),
  };
  const fit = fitLifetime('weibull', rows, { prior });
  const scale = Math.exp(fit.coefficients[0]);
  return {
    shape: fit.shape,
    scale,
    covariance: fit.covariance,
    logLikelihood: fit.logLikelihood,
    expectedRepairs: (from, to) => (to / scale) ** fit.shape - (from / scale) ** fit.shape,
  };
}
