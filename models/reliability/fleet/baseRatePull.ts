/** Hazards below this are taken as this: nothing that runs is free of risk, and logarithms need a floor. */
export const leastHazard = 1e-9;

/**
 * A cumulative hazard pulled on the log scale towards the fleet's base rate over the same days: mild shrinkage guards against a model that
 * is sure of itself. Without a base rate nothing is pulled. log result = (1 − pull) log hazard + pull log(rate × days).
 */
export function pullToBaseRate(hazard: number, days: number, ratePerDay: number, pull: number): number {
  if (!(ratePerDay > 0)) return hazard;
  const kept = Math.max(hazard, leastHazard);
  const base = Math.max(ratePerDay * days, leastHazard);
  return Math.exp((1 - pull) * Math.log(kept) + pull * Math.log(base));
}
