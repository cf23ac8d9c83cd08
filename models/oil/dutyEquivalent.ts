/** What adds up to equivalent distance. */
export interface UseParts {
  readonly distanceKm: number;
  readonly idleHours: number;
  /** hours at a stand under load wear at least as idle hours do */
  readonly ptoHours: number;
}

/**
 * Equivalent distance: what the odometer misses while the engine runs at a stand.
 * @param use distance, km, and hours at a stand, h, each 0 or more
 * @param idleEquivalentKm distance that one idle hour stands for, km; 40–53, by default 45
 * @returns km; 2000 miles and 100 idle hours at 33 miles an hour → 5300 miles
 * Source: fleet trade press, 25–33 miles per idle hour.
 */
export function equivalentKm(use: UseParts, idleEquivalentKm: number): number {
  return use.distanceKm + idleEquivalentKm * (use.idleHours + use.ptoHours);
}
