/**
 * Weighted least-squares fit that never falls, by pooling adjacent violators (Ayer, Brunk, Ewing, Reid & Silverman 1955). For
 * shares of successes with their counts as weights it is the maximum likelihood fit as well.
 * @param values in order @param weights above 0
 * @returns one fitted value per input; [1, 3, 2] with equal weights → [1, 2.5, 2.5]
 * @throws RangeError when a weight is not above 0
 */
export function poolAdjacentViolators(values: readonly number[], weights: readonly number[]): number[] {
  const blocks: { sum: number; weight: number; count: number }[] = [];
  values.forEach((value, i) => {
    if (!(weights[i] > 0)) throw new RangeError(`weight ${i} must be above 0, got ${weights[i]}`);
    let block = { sum: value * weights[i], weight: weights[i], count: 1 };
    for (
      let last = blocks.at(-1);
      last && last.sum * block.weight >= block.sum * last.weight;
      last = blocks.at(-1)
    ) {
      blocks.pop();
      block = {
        sum: block.sum + last.sum,
        weight: block.weight + last.weight,
        count: block.count + last.count,
      };
    }
    blocks.push(block);
  });
  return blocks.flatMap(({ sum, weight, count }) => new Array<number>(count).fill(sum / weight));
}
