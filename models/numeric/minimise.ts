import { cholesky, choleskySolve } from './cholesky.ts';

/**
 * A smooth function with exact derivatives, written into the arrays given; returns the value, Infinity outside the domain.
 * The Hessian is row-major and may hold the lower triangle alone.
 */
export type SecondOrderFunction = (at: Float64Array, gradient: Float64Array, hessian: Float64Array) => number;

export interface MinimiseOptions {
  /** most Newton steps tried; default 100 */
  readonly maximumSteps?: number;
  /** stop when half the squared Newton decrement falls below this; default 1e-12 */
  readonly tolerance?: number;
  /** longest step in any one parameter; default 2, fit for parameters on a log scale */
  readonly longestStep?: number | Float64Array;
}

export interface Minimum {
  readonly at: Float64Array;
  readonly value: number;
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
  readonly steps: number;
  /** false: the steps ran out or no descent was found; `at` is then the best point seen */
  readonly converged: boolean;
}

/**
 * Safeguarded Newton minimisation: a ridge is added until the Hessian is positive definite, steps are capped and halved
 * until the value falls (Nocedal & Wright, Numerical Optimization, chapter 3). Always ends, and never returns NaN.
 * @throws RangeError when the function is not finite at the start
 */
export function minimise(
  evaluate: SecondOrderFunction,
  start: ArrayLike<number>,
  options: MinimiseOptions = {},
): Minimum {
  const size = start.length;
  const { maximumSteps = 100, tolerance = 1e-12, longestStep = 2 } = options;
  let at = Float64Array.from(start);
  let gradient = new Float64Array(size);
  let hessian = new Float64Array(size * size);
  let value = evaluate(at, gradient, hessian);
  if (!Number.isFinite(value)) throw new RangeError(`minimise: start must have a finite value, got ${value}`);
  let triedGradient = new Float64Array(size);
  let triedHessian = new Float64Array(size * size);
  for (let steps = 0; steps < maximumSteps; steps++) {
    const step = newtonStep(hessian, gradient, size);
    let slope = 0;
    let cap = 1;
    for (let i = 0; i < size; i++) {
      slope += gradient[i] * step[i];
      const longest = typeof longestStep === 'number' ? longestStep : longestStep[i];
      if (Math.abs(step[i]) * cap > longest) cap = longest / Math.abs(step[i]);
    }
    if (-slope / 2 <= tolerance) return { at, value, gradient, hessian, steps, converged: true };
    // so close that rounding of the value outweighs the descent: the gradient alone is trusted
    const slack = -slope < 1e-8 * (1 + Math.abs(value)) ? 1e-8 * (1 + Math.abs(value)) : 0;
    const tried = new Float64Array(size);
    let share = cap;
    let found = false;
    for (let halving = 0; halving < 50 && !found; halving++, share /= 2) {
      for (let i = 0; i < size; i++) tried[i] = at[i] + share * step[i];
      const next = evaluate(tried, triedGradient, triedHessian);
      found = next <= value + 1e-4 * share * slope + slack && allFinite(triedGradient);
      if (found) value = next;
    }
    // rounding alone can deny the last, tiny descent
    if (!found)
      return { at, value, gradient, hessian, steps, converged: -slope < 1e-7 * (1 + Math.abs(value)) };
    at = tried;
    [gradient, triedGradient] = [triedGradient, gradient];
    [hessian, triedHessian] = [triedHessian, hessian];
  }
  return { at, value, gradient, hessian, steps: maximumSteps, converged: false };
}

function newtonStep(hessian: Float64Array, gradient: Float64Array, size: number): Float64Array {
  let ridge = 0;
  let largest = 0;
  for (let i = 0; i < size; i++) largest = Math.max(largest, Math.abs(hessian[i * size + i]));
  if (!Number.isFinite(largest) || largest === 0) largest = 1;
  const work = new Float64Array(size * size);
  for (let attempt = 0; attempt < 60; attempt++) {
    work.set(hessian);
    for (let i = 0; i < size; i++)
      work[i * size + i] += ridge * (Math.abs(hessian[i * size + i]) + 1e-8 * largest);
    const factor = cholesky(work, size);
    if (factor)
      return choleskySolve(
        factor,
        size,
        gradient.map((g) => -g),
      );
    ridge = ridge === 0 ? 1e-6 : ridge * 4;
  }
  return gradient.map((g) => -g / largest);
}

function allFinite(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false;
  return true;
}
