/**
 * Present value of yearly cash: Σ cash(t)/(1 + rate)^t, t from 0.
 * @param cashCents cash at the end of year 0, 1, …
 * @param ratePerYear above −1
 * @returns cents; −1000, 300, 400, 500, 200 at 10 % → 115.5669
 * @throws RangeError when the rate is not above −1
 * Source: any text on corporate finance; common practice.
 */
export function presentValue(cashCents: readonly number[], ratePerYear: number): number {
  if (!(ratePerYear > -1 && Number.isFinite(ratePerYear)))
    throw new RangeError(`ratePerYear must be above -1, got ${ratePerYear}`);
  let sum = 0;
  for (let year = cashCents.length - 1; year >= 0; year--) sum = sum / (1 + ratePerYear) + cashCents[year]!;
  return sum;
}

/**
 * The steady yearly sum with the same present value: PV·r/(1 − (1 + r)^−n); PV/n when r is 0.
 * @param years 1 or more
 * @returns cents a year; 28.365 over 3 years at 6 % → 10.6116
 * @throws RangeError when years is below 1 or the rate is not above −1
 * Source: Brealey & Myers, Principles of Corporate Finance (machines A and B), value from memory.
 */
export function equivalentAnnualCost(presentCents: number, ratePerYear: number, years: number): number {
  if (!(years >= 1 && Number.isFinite(years))) throw new RangeError(`years must be 1 or above, got ${years}`);
  if (!(ratePerYear > -1 && Number.isFinite(ratePerYear)))
    throw new RangeError(`ratePerYear must be above -1, got ${ratePerYear}`);
  if (Math.abs(ratePerYear) < 1e-12) return presentCents / years;
  return (presentCents * ratePerYear) / -Math.expm1(-years * Math.log1p(ratePerYear));
}

/** How long to keep a unit. */
export interface EconomicLife {
  /** yearly cost when kept 1, 2, … years, cents */
  readonly annualCentsByYears: readonly number[];
  /** years at which the yearly cost is least */
  readonly bestYears: number;
  readonly notes: readonly string[];
}

/**
 * Economic life: the years n with the least equivalent yearly cost of price, running cost and resale,
 * EAC(n) = [price + Σ running(t)/(1+r)^t − resale(n)/(1+r)^n]·r/(1 − (1+r)^−n).
 * @param priceCents price today, 0 or more
 * @param runningCentsByYear running cost of year 1, 2, … (upkeep, failures, downtime)
 * @param resaleCentsByYear what it fetches after year 1, 2, …; as many entries
 * @param ratePerYear 0 or more; below 0 is taken as 0 with a note
 * @returns yearly costs and the best number of years; the test holds a worked table with its least cost at 5 years
 * @throws RangeError when the lists are empty or differ in length, or the price is negative
 * Source: standard engineering economics; common practice.
 */
export function economicLife(
  priceCents: number,
  runningCentsByYear: readonly number[],
  resaleCentsByYear: readonly number[],
  ratePerYear: number,
): EconomicLife {
  if (!(priceCents >= 0)) throw new RangeError(`priceCents must be 0 or above, got ${priceCents}`);
  if (runningCentsByYear.length === 0 || runningCentsByYear.length !== resaleCentsByYear.length)
    throw new RangeError(
      `runningCentsByYear and resaleCentsByYear must be of one length from 1, got ${runningCentsByYear.length} and ${resaleCentsByYear.length}`,
    );
  const rate = Math.max(0, ratePerYear);
  const notes = ratePerYear < 0 ? [`a discount rate below 0 (${ratePerYear}) is taken as 0`] : [];
  const annualCentsByYears = runningCentsByYear.map((_, index) => {
    const years = index + 1;
    const cash = [priceCents, ...runningCentsByYear.slice(0, years)];
    cash[years]! -= resaleCentsByYear[index]!;
    return equivalentAnnualCost(presentValue(cash, rate), rate, years);
  });
  const bestYears = 1 + annualCentsByYears.indexOf(Math.min(...annualCentsByYears));
  return { annualCentsByYears, bestYears, notes };
}
