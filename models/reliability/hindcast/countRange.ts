import { countInterval } from '../counts/countInterval.ts';
import { mixCounts, poissonBinomial } from '../counts/poissonBinomial.ts';

/** 80 % range of a count whose units' chances are known up to parameters of which there are several equally likely versions. */
export function countRange(versions: readonly ArrayLike<number>[]): { countLow: number; countHigh: number } {
  const pmf = mixCounts(versions.map((chances) => poissonBinomial(chances)));
  const { low, high } = countInterval(pmf);
  return { countLow: low, countHigh: high };
}

/** Middles of equal parts of a distribution, as probabilities. */
export const equalParts: readonly number[] = Array.from({ length: 20 }, (_, k) => (k + 0.5) / 20);
