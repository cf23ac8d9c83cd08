/**
 * Lower Cholesky factor of a symmetric matrix, row-major; only the lower triangle is read.
 * @param matrix size × size values
 * @param smallestPivot pivots at or below this share of the diagonal they started from count as zero
 * @returns the factor (upper triangle zero), or null when the matrix is not positive definite
 */
export function cholesky(matrix: Float64Array, size: number, smallestPivot = 1e-13): Float64Array | null {
  const factor = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j];
      for (let k = 0; k < j; k++) sum -= factor[i * size + k] * factor[j * size + k];
      if (i === j) {
        if (!(sum > smallestPivot * Math.abs(matrix[i * size + i])) || sum === Infinity) return null;
        factor[i * size + i] = Math.sqrt(sum);
      } else factor[i * size + j] = sum / factor[j * size + j];
    }
  }
  return factor;
}

/** Solves L Lᵀ x = b for a lower Cholesky factor. Returns a new vector. */
export function choleskySolve(factor: Float64Array, size: number, right: ArrayLike<number>): Float64Array {
  const x = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = right[i];
    for (let k = 0; k < i; k++) sum -= factor[i * size + k] * x[k];
    x[i] = sum / factor[i * size + i];
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i];
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i] * x[k];
    x[i] = sum / factor[i * size + i];
  }
  return x;
}

/** Inverse of the matrix whose lower Cholesky factor is given; row-major, symmetric. */
export function choleskyInverse(factor: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  const unit = new Float64Array(size);
  for (let column = 0; column < size; column++) {
    unit.fill(0);
    unit[column] = 1;
    const x = choleskySolve(factor, size, unit);
    for (let row = 0; row < size; row++) inverse[row * size + column] = x[row];
  }
  return inverse;
}

/** Logarithm of the determinant of the matrix whose lower Cholesky factor is given. */
export function choleskyLogDeterminant(factor: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += Math.log(factor[i * size + i]);
  return 2 * sum;
}
