import { countMean, countQuantile } from './countSummary.ts';

const share = 0.8;
/** A narrower range must still hold this much. */
const leastShare = 0.75;

/**
 * 80 % range of a count. From the 10 % to the 90 % quantile a count's range holds up to 100 %, since its ends stand on whole failures; of these ends and
 * those one failure inside, the range whose chance is nearest to 80 %. A narrower one holds 75 % or more, and the mean.
 * @param pmf chance of 0, 1, 2 … failures, 0..1, sum 1
 * @returns whole numbers; Poisson with mean 4: 2 to 6 (0.798) rather than 2 to 7 (0.857)
 * Source: common practice, no source.
 */
export function countInterval(pmf: ArrayLike<number>): { low: number; high: number } {
  const first = countQuantile(pmf, (1 - share) / 2);
  const last = countQuantile(pmf, (1 + share) / 2);
  const mean = countMean(pmf);
  let best = { low: first, high: last };
  let miss = Math.abs(heldBy(pmf, first, last) - share);
  for (const low of [first, first + 1])
    for (const high of [last, last - 1]) {
      const held = heldBy(pmf, low, high);
      if (held < leastShare || low > mean || high < mean || !(Math.abs(held - share) < miss)) continue;
      best = { low, high };
      miss = Math.abs(held - share);
    }
  return best;
}

function heldBy(pmf: ArrayLike<number>, low: number, high: number): number {
  let sum = 0;
  for (let k = low; k <= high; k++) sum += pmf[k];
  return sum;
}
