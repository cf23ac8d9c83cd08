import type { DutyRules } from './dutyRules.ts';
import type { UnitDuty } from './dutyUnit.ts';
import type { Exposure } from './exposure.ts';
import type { Climate } from './usageClimate.ts';
import { columnOn, type UsageAxis } from './usageEnds.ts';
import { fuelBetween, type FuelRecord } from './usageFuel.ts';
import { tripsBetween, type TripPicture, type TripRecord } from './usageTrips.ts';

/** Everything that exposures of one unit are cut from. */
export interface UsageStory {
  readonly axis: UsageAxis;
  readonly duty: UnitDuty;
  readonly climate: Climate;
  readonly trips: TripRecord | null;
  readonly fuel: FuelRecord;
  readonly rules: DutyRules;
}

/** An exposure with what is known of its trips. */
export interface CutExposure {
  readonly exposure: Exposure;
  readonly trips: TripPicture;
}

/**
 * Cuts the exposure between two days out of a unit's time axis. Hours slower than the lowest believable driving speed
 * count as idle; a hybrid's distance is that of the odometer, its hours those of the engine, so its speed is distance per
 * engine hour.
 * @param fromDay first day, held to the timeline
 * @param toDay last day, held to the timeline and to `fromDay`
 * @returns totals of the stretch; speed and trip length are always above 0
 */
export function cutExposure(story: UsageStory, fromDay: number, toDay: number): CutExposure {
  const { axis, duty, rules } = story;
  const { days } = axis.table;
  const end = days[days.length - 1];
  const from = Math.min(end, Math.max(days[0], fromDay));
  const to = Math.max(from, Math.min(end, toDay));
  const during = (column: Float64Array) =>
    to > from ? Math.max(0, columnOn(days, column, to) - columnOn(days, column, from)) : 0;
  const km = during(axis.table.km);
  const driving = during(axis.table.drive);
  let idleHours = during(axis.table.idle);
  const usual = duty.speedKmh.value;
  let distanceKm = km;
  let speedKmh = driving > 1e-9 && distanceKm > 1e-9 ? distanceKm / driving : usual;
  if (driving > 1e-9 && distanceKm / driving < rules.speedMinKmh) {
    idleHours += driving - distanceKm / rules.speedMinKmh;
    speedKmh = rules.speedMinKmh;
  }
  speedKmh = Math.max(rules.speedMinKmh, duty.hybrid ? speedKmh : Math.min(rules.speedMaxKmh, speedKmh));
  if (distanceKm < 1e-9) distanceKm = 0;
  const trips = tripsBetween(story.trips, duty, story.climate, rules, from, to, km);
  const exposure: Exposure = {
    distanceKm,
    speedKmh,
    ...(duty.hybrid ? { enginePaceKmh: Math.min(usual, speedKmh) } : {}),
    tripKm: trips.tripKm,
    idleHours,
    ptoHours: during(axis.table.pto),
    days: to - from,
    ambientC: trips.ambientC,
    towingShare: trips.towingShare,
    dustShare: duty.dustShare,
    soakedStartsPerDay: duty.soakedStartsPerDay.value,
    fuelLiters: fuelBetween(story.fuel, from, to),
    litersPer100Km: duty.litersPer100Km?.value ?? null,
  };
  return { exposure, trips };
}
