import type { Lifetime } from './lifetime.ts';
import { integrate } from '../numeric/quadrature.ts';

/** Renewing at an age or on failure, whichever comes first. Ages are in the unit of the life. */
export interface RenewalPolicy {
  /** best age for the planned renewal; null = run to failure */
  readonly age: number | null;
  /** long-run cost per unit of age under the policy, cents */
  readonly centsPerUnit: number;
  /** the same when every renewal waits for the failure, cents */
  readonly runToFailureCentsPerUnit: number;
  /** cost under the policy ÷ cost of running to failure, 0..1 */
  readonly costShare: number;
  /** probability that a part fails before the planned age, 0..1 */
  readonly chanceFailsBefore: number;
  /** what was assumed or why there is no best age */
  readonly notes: readonly string[];
}

/** Beyond this share of parts failed, a planned age is no different from running to failure. */
const farShare = 1 - 1e-9;

/**
 * Long-run cost of renewing at an age: C(T) = [planned·R(T) + failure·F(T)] / ∫₀ᵀ R.
 * @param age above 0, in the unit of the life
 * @returns cents per unit of age; Weibull 2.5, 1000 with 1 and 5 at age 493.05 → 0.0034620
 * @throws RangeError when age is not above 0
 * Source: Barlow & Hunter, Operations Research 8 (1960) 90–100.
 */
export function renewalCostRate(
  life: Lifetime,
  age: number,
  plannedCents: number,
  failureCents: number,
): number {
  if (!(age > 0)) throw new RangeError(`age must be above 0, got ${age}`);
  const survives = life.survival(age);
  return (plannedCents * survives + failureCents * (1 - survives)) / meanLifeUpTo(life, age);
}

/** ∫₀ᴬ R: mean time a part is in use when it is renewed at the age at the latest; unit of the life. */
export function meanLifeUpTo(life: Lifetime, age: number): number {
  return integrate(life.survival, 0, age, 32);
}

/**
 * Best age for a planned renewal: h(T)·∫₀ᵀR − F(T) = planned/(failure − planned), at which (failure − planned)·h(T) = C(T).
 * There is none when the hazard does not grow, or when a failure costs no more than the planned renewal.
 * @param plannedCents cost of a planned renewal, above 0
 * @param failureCents cost of a failure, 0 or more
 * @returns the policy; Weibull 2.5, 1000 with costs 1 and 5 → age 493.05 at 61.4 % of the run-to-failure cost
 * @throws RangeError when a cost is negative, not finite, or the planned cost is 0
 * Source: Barlow & Hunter, Operations Research 8 (1960) 90–100.
 */
export function bestRenewalAge(life: Lifetime, plannedCents: number, failureCents: number): RenewalPolicy {
  checkCosts(plannedCents, failureCents);
  if (failureCents <= plannedCents)
    return runToFailure(life, failureCents, [
      'a planned renewal costs as much as a failure or more: running to failure is cheapest',
    ]);
  if (!life.wearsOut)
    return runToFailure(life, failureCents, [
      'the chance of failure does not grow with age: renewing early gains nothing',
    ]);
  const target = plannedCents / (failureCents - plannedCents);
  const excess = (age: number) =>
    life.hazard(age) * meanLifeUpTo(life, age) - (1 - life.survival(age)) - target;
  const farAge = life.quantile(farShare);
  if (excess(farAge) <= 0)
    return runToFailure(life, failureCents, [
      'the best age lies beyond nearly every life: running to failure is as cheap',
    ]);
  const age = crossing(excess, 0, farAge);
  const centsPerUnit = renewalCostRate(life, age, plannedCents, failureCents);
  const whole = failureCents / life.mean;
  return {
    age,
    centsPerUnit,
    runToFailureCentsPerUnit: whole,
    costShare: centsPerUnit / whole,
    chanceFailsBefore: 1 - life.survival(age),
    notes: [],
  };
}

/** Refuses costs that no renewal can have. */
export function checkCosts(plannedCents: number, failureCents: number): void {
  if (!(plannedCents > 0 && Number.isFinite(plannedCents)))
    throw new RangeError(`plannedCents must be above 0, got ${plannedCents}`);
  if (!(failureCents >= 0 && Number.isFinite(failureCents)))
    throw new RangeError(`failureCents must be 0 or above, got ${failureCents}`);
}

/** The policy without planned renewals. */
export function runToFailure(life: Lifetime, failureCents: number, notes: readonly string[]): RenewalPolicy {
  const rate = failureCents / life.mean;
  return {
    age: null,
    centsPerUnit: rate,
    runToFailureCentsPerUnit: rate,
    costShare: 1,
    chanceFailsBefore: 1,
    notes,
  };
}

/** Where a function that is below 0 at `low` and above 0 at `high` crosses 0, by bisection to the last digits. */
export function crossing(excess: (x: number) => number, low: number, high: number): number {
  for (let step = 0; step < 200; step++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (excess(middle) > 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
