/** A smooth function with its exact gradient written into the array given; Infinity outside the domain. */
export type FirstOrderFunction = (at: Float64Array, gradient: Float64Array) => number;

export interface GradientMinimum {
  readonly at: Float64Array;
  readonly value: number;
  readonly steps: number;
  readonly converged: boolean;
}

/**
 * Minimisation by BFGS with a backtracking line search, for functions without an exact Hessian (Nocedal & Wright,
 * algorithm 6.1). Always ends; `at` is the best point seen.
 * @throws RangeError when the function is not finite at the start
 */
export function minimiseByGradient(
  evaluate: FirstOrderFunction,
  start: ArrayLike<number>,
  maximumSteps = 500,
): GradientMinimum {
  const size = start.length;
  let at = Float64Array.from(start);
  let gradient = new Float64Array(size);
  let value = evaluate(at, gradient);
  if (!Number.isFinite(value))
    throw new RangeError(`minimiseByGradient: start must have a finite value, got ${value}`);
  const inverse = identity(size);
  let fresh = true;
  for (let steps = 0; steps < maximumSteps; steps++) {
    if (largest(gradient) < 1e-9 * (1 + Math.abs(value))) return { at, value, steps, converged: true };
    const direction = new Float64Array(size);
    let slope = 0;
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) direction[i] -= inverse[i * size + j] * gradient[j];
      slope += direction[i] * gradient[i];
    }
    const tried = new Float64Array(size);
    const triedGradient = new Float64Array(size);
    let share = Math.min(1, 2 / largest(direction));
    let found = false;
    let next = value;
    for (let halving = 0; halving < 60 && !found; halving++, share /= 2) {
      for (let i = 0; i < size; i++) tried[i] = at[i] + share * direction[i];
      next = evaluate(tried, triedGradient);
      found = next <= value + 1e-4 * share * slope && slope < 0 && triedGradient.every(Number.isFinite);
    }
    if (!found) {
      if (fresh) return { at, value, steps, converged: largest(gradient) < 1e-5 * (1 + Math.abs(value)) };
      inverse.set(identity(size));
      fresh = true;
      continue;
    }
    update(inverse, size, at, tried, gradient, triedGradient);
    fresh = false;
    at = tried;
    gradient = triedGradient;
    value = next;
  }
  return { at, value, steps: maximumSteps, converged: false };
}

function update(
  inverse: Float64Array,
  size: number,
  from: Float64Array,
  to: Float64Array,
  gradientFrom: Float64Array,
  gradientTo: Float64Array,
): void {
  const moved = to.map((v, i) => v - from[i]);
  const bent = gradientTo.map((v, i) => v - gradientFrom[i]);
  let curvature = 0;
  for (let i = 0; i < size; i++) curvature += moved[i] * bent[i];
  if (!(curvature > 1e-14)) return;
  const mapped = new Float64Array(size);
  let quadratic = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) mapped[i] += inverse[i * size + j] * bent[j];
    quadratic += mapped[i] * bent[i];
  }
  const front = (1 + quadratic / curvature) / curvature;
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++)
      inverse[i * size + j] +=
        front * moved[i] * moved[j] - (mapped[i] * moved[j] + moved[i] * mapped[j]) / curvature;
}

function identity(size: number): Float64Array {
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++) matrix[i * size + i] = 1;
  return matrix;
}

function largest(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, Math.abs(values[i]));
  return most;
}
