import { normalQuantile } from '../numeric/normal.ts';
import { factorInPlace } from '../numeric/cholesky.ts';

const golden = new Map<number, Float64Array>();

/**
 * A fixed set of standard normal vectors that fill the space evenly: each with its mirror image, mean 0 and covariance
 * exactly the identity. Source: Kronecker sequence of square roots of primes (Niederreiter 1992), then whitened.
 * @param count even, above 2 × size
 * @param size length of a vector
 * @returns count × size, row-major; the same at every call
 */
export function normalDraws(count: number, size: number): Float64Array {
  const key = count * 1000 + size;
  const known = golden.get(key);
  if (known !== undefined) return known;
  if (count % 2 !== 0 || count <= 2 * size)
    throw new Error(`count must be even and above twice the size ${size}, got ${count}`);
  const half = count / 2;
  const draws = new Float64Array(count * size);
  const roots = primes(size).map((prime) => Math.sqrt(prime) % 1);
  for (let row = 0; row < half; row++)
    for (let column = 0; column < size; column++) {
      const place = (0.5 + (row + 1) * roots[column]) % 1;
      const value = normalQuantile(Math.min(1 - 1e-6, Math.max(1e-6, place)));
      draws[row * size + column] = value;
      draws[(half + row) * size + column] = -value;
    }
  whiten(draws, count, size);
  golden.set(key, draws);
  return draws;
}

function primes(count: number): number[] {
  const found: number[] = [];
  for (let candidate = 2; found.length < count; candidate++)
    if (found.every((prime) => candidate % prime !== 0)) found.push(candidate);
  return found;
}

function whiten(draws: Float64Array, count: number, size: number): void {
  const covariance = new Float64Array(size * size);
  for (let row = 0; row < count; row++)
    for (let i = 0; i < size; i++)
      for (let j = 0; j <= i; j++)
        covariance[i * size + j] += (draws[row * size + i] * draws[row * size + j]) / count;
  if (!factorInPlace(covariance, size)) throw new Error(`draws must span ${size} directions, got fewer`);
  for (let row = 0; row < count; row++)
    for (let i = 0; i < size; i++) {
      let value = draws[row * size + i];
      for (let k = 0; k < i; k++) value -= covariance[i * size + k] * draws[row * size + k];
      draws[row * size + i] = value / covariance[i * size + i];
    }
}
