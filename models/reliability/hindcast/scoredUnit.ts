/** One chance and what became of it. */
export interface ScoredUnit {
  readonly unitNumber: string;
  readonly chance: number;
  /** 1 failed, 0 not, between where the records leave it open */
  readonly failed: number;
  /** share of the planned days that were run before a renewal or disposal took the unit out; 1 otherwise */
  readonly runShare: number;
  /** distance since renewal at the origin, for bands of age */
  readonly sinceRenewalKm: number;
}

/** Units whose outcome is known: sold or renewed ones before the end do not count as survivors. */
export function decided(scored: readonly ScoredUnit[]): readonly ScoredUnit[] {
  return scored.filter(({ failed, runShare }) => failed >= 0.5 || runShare >= 1);
}
