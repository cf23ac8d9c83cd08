import type { SecondOrderFunction } from '../../numeric/minimise.ts';
import type { LifetimeRows } from './lifetimeRows.ts';

/** Log likelihood of one row and its derivatives by log scale and log shape; see the Weibull row for the layout of `out`. */
export type RowLikelihood = (
  logLow: number,
  logHigh: number,
  logEntry: number,
  logScale: number,
  shape: number,
  out: Float64Array,
) => void;

/**
 * Negative log likelihood of all rows with gradient and Hessian in one pass. Parameters: log scale at covariates 0, one
 * coefficient per covariate (accelerated life: log scale = b0 + x'b), and the log shape last unless it is fixed.
 */
export function lifetimeLikelihood(
  rows: LifetimeRows,
  covariates: Float64Array,
  count: number,
  rowLikelihood: RowLikelihood,
  fixedShape: number | null,
): SecondOrderFunction {
  const { weight } = rows;
  const { low, high, entry } = logTimes(rows);
  const terms = count + 1;
  const size = terms + (fixedShape === null ? 1 : 0);
  const x = new Float64Array(terms);
  const out = new Float64Array(6);
  x[0] = 1;
  return (at, gradient, hessian) => {
    gradient.fill(0);
    hessian.fill(0);
    const shape = fixedShape ?? Math.exp(at[terms]);
    let value = 0;
    for (let i = 0; i < low.length; i++) {
      let logScale = at[0];
      for (let j = 1; j < terms; j++) {
        x[j] = covariates[i * count + j - 1];
        logScale += at[j] * x[j];
      }
      rowLikelihood(low[i], high[i], entry[i], logScale, shape, out);
      const w = weight ? weight[i] : 1;
      if (w === 0) continue;
      value -= w * out[0];
      const byScale = w * out[1];
      const scaleScale = w * out[3];
      for (let j = 0; j < terms; j++) {
        gradient[j] -= byScale * x[j];
        const scaled = scaleScale * x[j];
        for (let k = 0; k <= j; k++) hessian[j * size + k] -= scaled * x[k];
      }
      if (fixedShape !== null) continue;
      gradient[terms] -= w * out[2];
      const scaleShape = w * out[4];
      for (let j = 0; j < terms; j++) hessian[terms * size + j] -= scaleShape * x[j];
      hessian[terms * size + terms] -= w * out[5];
    }
    return Number.isFinite(value) ? value : Infinity;
  };
}

/** Log likelihood of each row at a log scale and shape, without weights or covariates. */
export function rowLogLikelihoods(
  rows: LifetimeRows,
  rowLikelihood: RowLikelihood,
  logScale: number,
  shape: number,
): number[] {
  const out = new Float64Array(6);
  const { low, high, entry } = logTimes(rows);
  return Array.from(low, (logLow, i) => {
    rowLikelihood(logLow, high[i], entry[i], logScale, shape, out);
    return out[0];
  });
}

/** Logarithms once, not in every pass; delayed entry at 0 becomes −Infinity. */
function logTimes(rows: LifetimeRows): { low: Float64Array; high: Float64Array; entry: Float64Array } {
  return {
    low: rows.low.map(Math.log),
    high: rows.high.map(Math.log),
    entry: rows.entry ? rows.entry.map(Math.log) : new Float64Array(rows.low.length).fill(-Infinity),
  };
}
