/**
 * Cholesky factor of a symmetric positive definite matrix, in place in the lower triangle (row-major, size × size).
 * Formula: A = L·Lᵀ (Golub and Van Loan, Matrix Computations, algorithm 4.2.1). The upper triangle is not touched.
 * @param smallestPivot pivots at or below this share of the diagonal they started from count as zero
 * @returns false when the matrix is not positive definite; the content is then of no use
 */
export function factorInPlace(matrix: Float64Array, size: number, smallestPivot = 0): boolean {
  for (let j = 0; j < size; j++) {
    let diagonal = matrix[j * size + j];
    const smallest = smallestPivot * Math.abs(diagonal);
    for (let k = 0; k < j; k++) diagonal -= matrix[j * size + k] * matrix[j * size + k];
    if (!(diagonal > smallest) || !Number.isFinite(diagonal)) return false;
    const root = Math.sqrt(diagonal);
    matrix[j * size + j] = root;
    for (let i = j + 1; i < size; i++) {
      let sum = matrix[i * size + j];
      for (let k = 0; k < j; k++) sum -= matrix[i * size + k] * matrix[j * size + k];
      matrix[i * size + j] = sum / root;
    }
  }
  return true;
}

/**
 * Cholesky factor of a symmetric matrix as a new one, its upper triangle zero; only the lower triangle is read.
 * @param smallestPivot as of {@link factorInPlace}
 * @returns null when the matrix is not positive definite
 */
export function cholesky(matrix: Float64Array, size: number, smallestPivot = 1e-13): Float64Array | null {
  const factor = matrix.slice();
  if (!factorInPlace(factor, size, smallestPivot)) return null;
  for (let i = 0; i < size; i++) factor.fill(0, i * size + i + 1, (i + 1) * size);
  return factor;
}

/** Solves L·Lᵀ·x = right for a factor; gives a new vector. */
export function choleskySolve(factor: Float64Array, size: number, right: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(right);
  solveInPlace(factor, size, x);
  return x;
}

/** Solves L·Lᵀ·x = right in place, with the factor of {@link factorInPlace}. */
export function solveInPlace(factor: Float64Array, size: number, right: Float64Array): void {
  for (let i = 0; i < size; i++) {
    let sum = right[i];
    for (let k = 0; k < i; k++) sum -= factor[i * size + k] * right[k];
    right[i] = sum / factor[i * size + i];
  }
  backSolveInPlace(factor, size, right);
}

/** Solves Lᵀ·x = right in place: turns standard normal values into values with covariance A⁻¹. */
export function backSolveInPlace(factor: Float64Array, size: number, right: Float64Array): void {
  for (let i = size - 1; i >= 0; i--) {
    let sum = right[i];
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i] * right[k];
    right[i] = sum / factor[i * size + i];
  }
}

/** Inverse of A from its factor, as a full symmetric matrix. */
export function inverseOfFactor(factor: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  const column = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    column.fill(0);
    column[j] = 1;
    solveInPlace(factor, size, column);
    for (let i = 0; i < size; i++) inverse[i * size + j] = column[i];
  }
  return inverse;
}

/**
 * Inverse of a symmetric positive definite matrix. Example: [2] → [0.5].
 * Throws when the matrix is not positive definite.
 */
export function inverseOf(matrix: Float64Array, size: number): Float64Array {
  const factor = matrix.slice();
  if (!factorInPlace(factor, size)) throw new Error('matrix must be positive definite, got one that is not');
  return inverseOfFactor(factor, size);
}

/** Logarithm of the determinant of the matrix whose lower Cholesky factor is given. */
export function choleskyLogDeterminant(factor: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += Math.log(factor[i * size + i]);
  return 2 * sum;
}
