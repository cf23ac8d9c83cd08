/** One chance and what became of it. */
export interface ScoredUnit {
  readonly unitNumber: string;
  /** chance of failing within the part of the window that the records reach */
  readonly chance: number;
  /** 1 failed, 0 not, between where the records leave it open */
  readonly failed: number;
  /** share of the planned days that were run before a renewal or disposal took the unit out; 1 otherwise */
  readonly runShare: number;
  /** distance since renewal at the origin, for bands of age */
  readonly sinceRenewalKm: number;
  /** weights as a failure and as a survivor (see observationWeights); both 0 where the end is not known */
  readonly failedWeight: number;
  readonly survivedWeight: number;
}

/** The chance brought to the days that were run before a renewal or disposal, at a constant hazard. */
export function chanceOnRun({ chance, runShare }: ScoredUnit): number {
  return -Math.expm1(runShare * Math.log1p(-Math.min(chance, 1 - 1e-12)));
}
