import values from '../../references/reliability/reliability-values.json' with { type: 'json' };

/** Values made by tests/references/reliability/generate.R (R and its package survival). */
export const reference = values;

/** JSON has no Infinity: the generator writes it as text. */
export function numbers(list: readonly (number | string | null)[]): number[] {
  return list.map(Number);
}

/** Largest relative difference, against 1 where the expected value is 0. */
export function relativeMiss(actual: ArrayLike<number>, expected: ArrayLike<number>): number {
  if (actual.length !== expected.length) return Infinity;
  let worst = 0;
  for (let i = 0; i < expected.length; i++) {
    const miss = Math.abs(actual[i] - expected[i]) / (Math.abs(expected[i]) || 1);
    worst = Math.max(worst, Number.isNaN(miss) ? Infinity : miss);
  }
  return worst;
}

/** Row-major columns side by side. */
export function interleave(...columns: readonly (readonly number[])[]): Float64Array {
  return Float64Array.from(columns[0].flatMap((_, i) => columns.map((column) => column[i])));
}
