import { chiSquareQuantile } from '../../numeric/chiSquareQuantile.ts';

export interface PoissonRatio {
  /** observed over expected */
  readonly ratio: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Observed over expected count with exact Poisson limits (Garwood, Biometrika 28, 1936): χ² quantiles with 2n and 2n + 2 degrees.
 * A count that holds chances (0.4 of a failure) is taken as it is: the limits run smoothly between whole numbers.
 * @param observed 0 or above @param expected above 0
 * @param coverage of the limits, 0..1
 * @returns 5 of 5 → 1 (0.325 to 2.334); 0 observed → low 0
 * @throws RangeError when observed is below 0 or expected is not above 0
 */
export function observedOverExpected(observed: number, expected: number, coverage = 0.95): PoissonRatio {
  if (!(observed >= 0 && observed < Infinity))
    throw new RangeError(`observed must be 0 or above, got ${observed}`);
  if (!(expected > 0)) throw new RangeError(`expected must be above 0, got ${expected}`);
  const tail = (1 - coverage) / 2;
  return {
    ratio: observed / expected,
    low: observed === 0 ? 0 : chiSquareQuantile(2 * observed, tail) / 2 / expected,
    high: chiSquareQuantile(2 * observed + 2, 1 - tail) / 2 / expected,
  };
}
