import { normalDraw } from '../../numeric/random.ts';
import type { Random } from '../../numeric/random.ts';

/**
 * Draws from the Gaussian that has a posterior's mode and curvature (Laplace approximation; Tierney & Kadane, JASA 81, 1986).
 * @param mode parameters at the maximum
 * @param precisionFactor lower Cholesky factor of the negative log posterior's Hessian, row-major
 * @returns `count` vectors
 */
export function laplaceDraws(
  mode: Float64Array,
  precisionFactor: Float64Array,
  count: number,
  random: Random,
): Float64Array[] {
  return Array.from({ length: count }, () => {
    const draw = Float64Array.from(mode, () => normalDraw(random));
    solveTransposed(precisionFactor, draw);
    for (let i = 0; i < mode.length; i++) draw[i] += mode[i];
    return draw;
  });
}

/** Solves Lᵀ x = z in place, which turns standard normal z into draws with covariance (L Lᵀ)⁻¹. */
export function solveTransposed(factor: Float64Array, z: Float64Array): void {
  const size = z.length;
  for (let i = size - 1; i >= 0; i--) {
    let sum = z[i];
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i] * z[k];
    z[i] = sum / factor[i * size + i];
  }
}
