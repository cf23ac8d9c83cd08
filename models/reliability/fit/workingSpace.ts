import { standardise } from './standardise.ts';
import type { StandardColumns } from './standardise.ts';
import type { LifetimeRows } from './lifetimeRows.ts';

/**
 * Independent Gaussian priors on log scale at covariates 0, each coefficient, and the log shape (last, unless it is fixed).
 * An sd of Infinity leaves a parameter free.
 */
export interface GaussianPrior {
  readonly mean: readonly number[];
  readonly sd: readonly number[];
}

/** Parameters as the optimiser sees them (standardised covariates), with the linear way back to the raw ones. */
export interface WorkingSpace {
  readonly size: number;
  readonly columns: StandardColumns;
  readonly toRaw: (at: Float64Array) => Float64Array;
  readonly covarianceToRaw: (covariance: Float64Array) => Float64Array;
}

export function workingSpace(
  rows: LifetimeRows,
  withShape: boolean,
  prior: GaussianPrior | undefined,
): WorkingSpace {
  const count = rows.covariateCount ?? 0;
  const size = count + 1 + (withShape ? 1 : 0);
  const columns = standardise(rows.covariates ?? new Float64Array(0), count, rows.weight, (j) =>
    // a prior already conditions its column; shifting a nearly constant one would couple it hard to the log scale
    Boolean(prior && prior.sd[j + 1] < Infinity),
  );
  const toRaw = (at: Float64Array): Float64Array => {
    const raw = Float64Array.from(at);
    for (let j = 0; j < count; j++) {
      raw[j + 1] = at[j + 1] / columns.sds[j];
      raw[0] -= raw[j + 1] * columns.means[j];
    }
    return raw;
  };
  const covarianceToRaw = (covariance: Float64Array): Float64Array => {
    const half = new Float64Array(size * size);
    const raw = new Float64Array(size * size);
    for (let column = 0; column < size; column++) {
      const mapped = toRaw(Float64Array.from({ length: size }, (_, row) => covariance[row * size + column]));
      for (let row = 0; row < size; row++) half[row * size + column] = mapped[row];
    }
    for (let row = 0; row < size; row++) raw.set(toRaw(half.slice(row * size, (row + 1) * size)), row * size);
    return raw;
  };
  return { size, columns, toRaw, covarianceToRaw };
}

/** The negative log prior (up to a constant) as a function of the working parameters. */
export interface WorkingPrior {
  readonly valueAt: (at: Float64Array) => number;
  /** adds gradient and lower Hessian, returns the value */
  readonly add: (at: Float64Array, gradient: Float64Array, hessian: Float64Array) => number;
}

/** @throws RangeError when mean and sd do not have one value per parameter, or an sd is not above 0 */
export function priorInWorkingSpace(prior: GaussianPrior | undefined, space: WorkingSpace): WorkingPrior {
  if (!prior) return { valueAt: () => 0, add: () => 0 };
  const { size } = space;
  if (prior.mean.length !== size || prior.sd.length !== size)
    throw new RangeError(
      `prior must have ${size} means and sds, got ${prior.mean.length} and ${prior.sd.length}`,
    );
  if (!prior.sd.every((sd) => sd > 0))
    throw new RangeError(`prior sd must be above 0, got ${prior.sd.join(', ')}`);
  // column j: what the raw parameters do when working parameter j moves by 1
  const columns = Array.from({ length: size }, (_, j) => {
    const unit = new Float64Array(size);
    unit[j] = 1;
    return space.toRaw(unit);
  });
  const misses = (at: Float64Array) => space.toRaw(at).map((v, i) => (v - prior.mean[i]) / prior.sd[i]);
  const valueAt = (at: Float64Array) => misses(at).reduce((sum, miss) => sum + 0.5 * miss * miss, 0);
  return {
    valueAt,
    add: (at, gradient, hessian) => {
      const miss = misses(at);
      for (let j = 0; j < size; j++)
        for (let i = 0; i < size; i++) {
          gradient[j] += (miss[i] * columns[j][i]) / prior.sd[i];
          for (let k = 0; k <= j; k++)
            hessian[j * size + k] += (columns[j][i] * columns[k][i]) / (prior.sd[i] * prior.sd[i]);
        }
      return miss.reduce((sum, one) => sum + 0.5 * one * one, 0);
    },
  };
}
