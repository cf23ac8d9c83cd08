import { bestRenewalAge, checkCosts, crossing } from './ageReplacement.ts';
import type { Lifetime } from './lifetime.ts';
import { integrate } from '../numeric/quadrature.ts';

/** Renewal at an age when later money counts less. */
export interface DiscountedPolicy {
  /** best age, in the unit of the life; null = run to failure */
  readonly age: number | null;
  /** present value of all renewals to come under the policy, cents; null when nothing is discounted */
  readonly presentCents: number | null;
  /** the same as a steady cost per unit of age, cents */
  readonly centsPerUnit: number;
  readonly notes: readonly string[];
}

/**
 * Best age for planned renewals for ever with continuous discounting:
 * V(T) = [planned·e^(−rT)·R + failure·∫e^(−rt)f] / [1 − e^(−rT)R − ∫e^(−rt)f]. By parts the denominator is r·J with
 * J = ∫₀ᵀ e^(−rt)R, and V is least where (h(T)(failure − planned) − r·planned)·J = numerator.
 * @param plannedCents above 0
 * @param failureCents 0 or more
 * @param ratePerUnit continuous interest per unit of age; 0 = none; below 0 is taken as 0 with a note
 * @returns Weibull 2.5 with scale 8 years, 900 and 4500, 5 % a year → age 4.0589, present value 7231.31
 * @throws RangeError when a cost is out of range or the rate is not finite
 * Source: Fox, Operations Research 14 (1966) 533–537.
 */
export function bestDiscountedAge(
  life: Lifetime,
  plannedCents: number,
  failureCents: number,
  ratePerUnit: number,
): DiscountedPolicy {
  checkCosts(plannedCents, failureCents);
  if (!Number.isFinite(ratePerUnit)) throw new RangeError(`ratePerUnit must be a number, got ${ratePerUnit}`);
  if (ratePerUnit <= 0) {
    const plain = bestRenewalAge(life, plannedCents, failureCents);
    const note = ratePerUnit < 0 ? [`a discount rate below 0 (${ratePerUnit}) is taken as 0`] : [];
    return {
      age: plain.age,
      presentCents: null,
      centsPerUnit: plain.centsPerUnit,
      notes: [...note, ...plain.notes],
    };
  }
  const useDiscounted = (age: number) =>
    integrate((t) => Math.exp(-ratePerUnit * t) * life.survival(t), 0, age, 32);
  const spend = (age: number, use: number) => {
    const kept = Math.exp(-ratePerUnit * age) * life.survival(age);
    return plannedCents * kept + failureCents * (1 - kept - ratePerUnit * use);
  };
  const farAge = life.quantile(1 - 1e-9);
  const excess = (age: number) => {
    const use = useDiscounted(age);
    const rise = life.hazard(age) * (failureCents - plannedCents) - ratePerUnit * plannedCents;
    return rise * use - spend(age, use);
  };
  const none = failureCents <= plannedCents || !life.wearsOut || excess(farAge) <= 0;
  const age = none ? farAge : crossing(excess, 0, farAge);
  const use = useDiscounted(age);
  const presentCents = spend(age, use) / (ratePerUnit * use);
  return {
    age: none ? null : age,
    presentCents,
    centsPerUnit: presentCents * ratePerUnit,
    notes: none ? ['no planned age is cheaper than running to failure'] : [],
  };
}
