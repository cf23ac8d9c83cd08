/** What to do with an asset at each age, and what it is worth when done. */
export interface AssetPolicy {
  /** value at each age from 1, same unit as the profits, cents */
  readonly valueCents: readonly number[];
  /** true = replace at that age, from age 1 */
  readonly replace: readonly boolean[];
  readonly notes: readonly string[];
}

/**
 * Keep or replace, year by year for ever: V(a) = max{profit(a) + d·V(a+1), profit(0) − replacement + d·V(1)}; at the last
 * age only replacing is possible.
 * @param profitCentsByAge profit in the year that begins at age 0, 1, … up to the age before the last; two or more
 * @param replacementCents price of a new one less what the old one fetches, cents
 * @param discountFactor worth today of 1 a year on, 0 or more; 1 or more is taken as 0.9999 with a note
 * @returns values and actions from age 1; 50 − 2.5a − 2.5a² for five ages, price 75, factor .9 → value 216.56 at age 1,
 * replace from age 4
 * @throws RangeError for fewer than two ages or values that are not finite
 * Source: Miranda & Fackler, Applied Computational Economics and Finance (2002), 7.6.2.
 */
export function assetReplacement(
  profitCentsByAge: readonly number[],
  replacementCents: number,
  discountFactor: number,
): AssetPolicy {
  if (profitCentsByAge.length < 2)
    throw new RangeError(`profitCentsByAge must hold 2 ages or more, got ${profitCentsByAge.length}`);
  for (const value of [...profitCentsByAge, replacementCents, discountFactor])
    if (!Number.isFinite(value))
      throw new RangeError(`profits, price and factor must be numbers, got ${value}`);
  if (discountFactor < 0) throw new RangeError(`discountFactor must be 0 or above, got ${discountFactor}`);
  const factor = Math.min(discountFactor, 0.9999);
  const notes = factor < discountFactor ? [`a discount factor of ${discountFactor} is taken as 0.9999`] : [];
  const lastAge = profitCentsByAge.length;
  const values = new Float64Array(lastAge);
  const keep = (age: number) =>
    age === lastAge ? -Infinity : profitCentsByAge[age]! + factor * values[age]!;
  const renew = () => profitCentsByAge[0]! - replacementCents + factor * values[0]!;
  const scale = Math.max(1, ...profitCentsByAge.map(Math.abs), Math.abs(replacementCents));
  for (let round = 0; round < 1_000_000; round++) {
    let change = 0;
    for (let age = lastAge; age >= 1; age--) {
      const value = Math.max(keep(age), renew());
      change = Math.max(change, Math.abs(value - values[age - 1]!));
      values[age - 1] = value;
    }
    if (change < 1e-13 * scale) break;
  }
  const ages = Array.from({ length: lastAge }, (_, index) => index + 1);
  return {
    valueCents: [...values],
    replace: ages.map((age) => renew() > keep(age)),
    notes,
  };
}
