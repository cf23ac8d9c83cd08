import { wholeHazard, wholeRenewedHazard, type Risk } from './risk.ts';

/** Money that a renewal decision turns on. */
export interface TimingCosts {
  /** planned renewal, downtime included, cents */
  readonly plannedCents: number;
  /** failure, downtime included, cents */
  readonly failureCents: number;
  /** discount a month, 0 or more: worth of 1 after a month is e^(−rate) */
  readonly monthlyRate: number;
}

/** Expected costs of one draw over the judged months, present value, cents. */
export interface TimingCents {
  /** running to failure; a failed part is renewed and may fail again */
  readonly run: number;
  /** renewing at the start of month 0, 1, … up to the last, failures before it included */
  readonly renewAt: Float64Array;
  /** failures of a part renewed at month 0 */
  readonly renewedFailures: number;
  /** chance of reaching the start of month 0, 1, … without failure */
  readonly survival: Float64Array;
  /** chance that a part new at month 0 fails within the months, 0..1 */
  readonly renewedChance: number;
}

/**
 * What renewing at each month costs against running on, month by month: a failure in month k costs
 * f_k(failure·v^(k+½) + v^(k+1)·N(H−k−1)), N(h) being the failures still to come of a part new with h months left;
 * renewing at month t costs the failures before it and S(t)·v^t·(planned + N(H−t)).
 * @param draw which parameter draw
 * @param months judged, H, whole, 0 or more; nothing counts beyond (disposal)
 * @param useFactor use against today's, 1 = as now
 * @returns costs by month of renewal; two months of chance .1, a failure of 5000 and no discount → run 950
 * @throws RangeError when months is no whole number from 0
 * Source: discrete renewal equation (Barlow & Proschan 1965, chapter 3).
 */
export function renewalTiming(
  risk: Risk,
  draw: number,
  months: number,
  costs: TimingCosts,
  useFactor = 1,
): TimingCents {
  if (!(Number.isInteger(months) && months >= 0))
    throw new RangeError(`months must be a whole number from 0, got ${months}`);
  const { plannedCents, failureCents, monthlyRate } = costs;
  const survival = new Float64Array(months + 1);
  const renewed = new Float64Array(months + 1);
  const worth = new Float64Array(months + 1);
  for (let k = 0; k <= months; k++) {
    survival[k] = Math.exp(-wholeHazard(risk, draw, k * useFactor));
    renewed[k] = Math.exp(-wholeRenewedHazard(risk, draw, k * useFactor));
    worth[k] = Math.exp(-monthlyRate * k);
  }
  const half = Math.exp(-monthlyRate / 2);
  const ahead = new Float64Array(months + 1);
  const carried = new Float64Array(months + 1);
  let first = 0;
  for (let h = 1; h <= months; h++) {
    const fails = renewed[h - 1]! - renewed[h]!;
    first += fails * failureCents * worth[h - 1]! * half;
    carried[h - 1] = fails * worth[h]!;
    let sum = first;
    for (let j = 0; j < h; j++) sum += carried[j]! * ahead[h - j - 1]!;
    ahead[h] = sum;
  }
  const renewAt = new Float64Array(months + 1);
  let before = 0;
  for (let t = 0; t <= months; t++) {
    renewAt[t] = before + survival[t]! * worth[t]! * (plannedCents + ahead[months - t]!);
    if (t < months)
      before +=
        (survival[t]! - survival[t + 1]!) *
        (failureCents * worth[t]! * half + worth[t + 1]! * ahead[months - t - 1]!);
  }
  return {
    run: before,
    renewAt,
    renewedFailures: ahead[months]!,
    survival,
    renewedChance: 1 - renewed[months]!,
  };
}
