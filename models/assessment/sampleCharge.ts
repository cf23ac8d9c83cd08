import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Sample } from '../schema/sample.ts';

/** The charge that a sample was taken from, and what it had run. */
export interface SampledCharge {
  readonly charge: OilCharge;
  readonly index: number;
  /** km on the oil: the laboratory's where it told, else the records' */
  readonly oilKm: number | null;
  /** oil added before the sample, L */
  readonly topUpLiters: number;
}

/**
 * Finds the oil charge of a sample. A sample of the day of a drain is of the oil that was drained, but for one that has
 * hardly run: that is of the new oil.
 * @param freshKm distance up to which a sample stands for the new oil, km
 * @returns null when no charge of the records covers the day
 */
export function chargeOfSample(
  timeline: UnitTimeline,
  sample: Sample,
  freshKm: number,
): SampledCharge | null {
  const day = dayFromIso(sample.sampledOn);
  const fresh = sample.oilKm !== null && sample.oilKm <= freshKm;
  const { charges } = timeline;
  const within = ({ startDay, endDay }: OilCharge, index: number): boolean =>
    (fresh ? startDay <= day && (day < endDay || index === charges.length - 1) : startDay < day) &&
    day <= endDay;
  const index = charges.findIndex(within);
  if (index < 0) return null;
  const charge = charges[index];
  const known = timeline.exposureBetween(charge.startDay, day).distanceKm;
  return {
    charge,
    index,
    oilKm: sample.oilKm ?? (charge.startBasis === 'first_record' || !(known > 0) ? null : known),
    topUpLiters: charge.topUps.reduce((sum, topUp) => (topUp.day <= day ? sum + topUp.liters : sum), 0),
  };
}
