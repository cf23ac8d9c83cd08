import type { UnitTimeline } from '../oil/charge.ts';

/** Oil added between changes. */
export interface MakeUp {
  readonly liters: number;
  readonly distanceKm: number;
  readonly litersPer1000Km: number;
}

/** Charges this far back count, days. */
const lookBackDays = 730;

/**
 * Make-up rate of a unit: litres topped up over the distance of the charges of the last two years.
 * @returns 3 L in 5400 km → 0.56 L per 1000 km; null when nothing was added, or in less than 500 km
 * Source: common practice, no source.
 */
export function makeUpOf({ charges, asOfDay }: UnitTimeline): MakeUp | null {
  let liters = 0;
  let distanceKm = 0;
  for (const charge of charges) {
    if (charge.endDay <= asOfDay - lookBackDays || charge.startBasis === 'first_record') continue;
    liters += charge.topUps.reduce((sum, topUp) => sum + topUp.liters, 0);
    distanceKm += charge.exposure.distanceKm;
  }
  if (liters <= 0 || distanceKm < 500) return null;
  return { liters, distanceKm, litersPer1000Km: liters / (distanceKm / 1000) };
}
