/**
 * Distribution of the number of events among independent units with chances of their own (Poisson-binomial), by convolution
 * unit by unit. Ends of the distribution below 1e-15 are let go, so that large fleets stay quick.
 * @param chances each 0..1
 * @returns pmf[k] = chance of exactly k events; [0.5, 0.5] → [0.25, 0.5, 0.25]
 * @throws RangeError for a chance outside 0..1
 */
export function poissonBinomial(chances: ArrayLike<number>): Float64Array {
  const pmf = new Float64Array(chances.length + 1);
  pmf[0] = 1;
  let low = 0;
  let high = 0;
  for (let i = 0; i < chances.length; i++) {
    const chance = chances[i];
    if (!(chance >= 0 && chance <= 1))
      throw new RangeError(`chance ${i} must lie from 0 to 1, got ${chance}`);
    if (chance === 0) continue;
    const stay = 1 - chance;
    high++;
    for (let k = high; k > low; k--) pmf[k] = pmf[k] * stay + pmf[k - 1] * chance;
    pmf[low] *= stay;
    if (high - low > 64) {
      while (pmf[low] < 1e-15) pmf[low++] = 0;
      while (pmf[high] < 1e-15) pmf[high--] = 0;
    }
  }
  return pmf.slice(0, high + 1);
}

/** Equal mixture of count distributions, e.g. one per draw of the parameters. */
export function mixCounts(pmfs: readonly Float64Array[]): Float64Array {
  if (pmfs.length === 0) throw new RangeError('mixCounts: pmfs must hold at least one distribution, got 0');
  const mixed = new Float64Array(Math.max(...pmfs.map((pmf) => pmf.length)));
  for (const pmf of pmfs) for (let k = 0; k < pmf.length; k++) mixed[k] += pmf[k] / pmfs.length;
  return mixed;
}
