/** How often sets were renewed as planned, by how high their hazard was at the time. */
export interface RenewalPractice {
  /** ascending hazards per day that part the bands */
  readonly edges: readonly number[];
  /** planned renewals per unit and day, one more than edges */
  readonly ratePerDay: readonly number[];
}

const bandShares = [0.5, 0.8, 0.95];

/**
 * Today's renewal practice from windows of past exposure: the planned renewals per day in bands of hazard, each pulled to the overall rate with
 * one renewal's weight. Planned renewals take the worst sets out, so a forecast must say whether it reckons with them.
 */
export function renewalPractice(
  hazards: ArrayLike<number>,
  days: ArrayLike<number>,
  planned: ArrayLike<number>,
): RenewalPractice {
  const order = Array.from({ length: days.length }, (_, i) => i)
    .filter((i) => days[i] > 0)
    .sort((a, b) => hazards[a] / days[a] - hazards[b] / days[b]);
  const allDays = order.reduce((sum, i) => sum + days[i], 0);
  const allPlanned = order.reduce((sum, i) => sum + planned[i], 0);
  if (!(allPlanned > 0)) return { edges: [], ratePerDay: [0] };
  const overall = allPlanned / allDays;
  const edges: number[] = [];
  const ratePerDay: number[] = [];
  let seen = 0;
  let bandDays = 0;
  let bandPlanned = 0;
  const close = () => {
    // one renewal's worth of the overall rate
    ratePerDay.push((bandPlanned + 1) / (bandDays + 1 / overall));
    bandDays = 0;
    bandPlanned = 0;
  };
  for (const i of order) {
    if (edges.length < bandShares.length && seen >= bandShares[edges.length] * allDays) {
      edges.push(hazards[i] / days[i]);
      close();
    }
    seen += days[i];
    bandDays += days[i];
    bandPlanned += planned[i];
  }
  close();
  return { edges, ratePerDay };
}

/** Planned renewals per day that the practice holds for a set with this hazard per day. */
export function plannedRateAt({ edges, ratePerDay }: RenewalPractice, hazardPerDay: number): number {
  let band = 0;
  while (band < edges.length && hazardPerDay >= edges[band]) band++;
  return ratePerDay[band];
}

/**
 * Chance of failing within a horizon when a planned renewal may come first, both at constant hazards: F/(F + P) (1 − e^−(F + P)).
 * @param failureHazard cumulative over the horizon @param plannedHazard the same for planned renewal
 */
export function failureBeforeRenewal(failureHazard: number, plannedHazard: number): number {
  const total = failureHazard + plannedHazard;
  return total > 0 ? (failureHazard / total) * -Math.expm1(-total) : 0;
}
