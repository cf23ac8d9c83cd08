import { checkCosts } from './ageReplacement.ts';

/** Renewal at an age when failures in between are patched without making the part any younger. */
export interface MinimalRepairPolicy {
  /** best age in the unit of scale; null = never renew */
  readonly age: number | null;
  /** long-run cents per unit of age; null when never renewing has no steady cost */
  readonly centsPerUnit: number | null;
  readonly notes: readonly string[];
}

/**
 * Best renewal age with minimal repair: T* = scale·(planned/(repair·(shape − 1)))^(1/shape), cost rate
 * (planned + repair·(T/scale)^shape)/T.
 * @param shape above 0; at or below 1 repairs do not become more frequent and no age is best
 * @param scale above 0
 * @param plannedCents cost of a renewal, above 0
 * @param repairCents cost of one repair, 0 or more
 * @returns shape 2.5, scale 1000, costs 1 and 5 → age 446.658 at 0.00373141 a unit
 * @throws RangeError for values out of range
 * Source: Barlow & Hunter, Operations Research 8 (1960) 90–100 (policy II).
 */
export function bestMinimalRepairAge(
  shape: number,
  scale: number,
  plannedCents: number,
  repairCents: number,
): MinimalRepairPolicy {
  if (!(shape > 0 && Number.isFinite(shape))) throw new RangeError(`shape must be above 0, got ${shape}`);
  if (!(scale > 0 && Number.isFinite(scale))) throw new RangeError(`scale must be above 0, got ${scale}`);
  checkCosts(plannedCents, repairCents);
  if (repairCents === 0) return { age: null, centsPerUnit: 0, notes: ['repairs cost nothing: never renew'] };
  if (shape <= 1)
    return {
      age: null,
      centsPerUnit: shape === 1 ? repairCents / scale : null,
      notes: ['repairs do not become more frequent with age: renewing gains nothing'],
    };
  const age = scale * (plannedCents / (repairCents * (shape - 1))) ** (1 / shape);
  return {
    age,
    centsPerUnit: (plannedCents + repairCents * (age / scale) ** shape) / age,
    notes: [],
  };
}
