import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { partOfExposure } from '../oil/condition.ts';
import type { Exposure } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnrecordedLife } from './segments.ts';

/** Distance before the first record that is not worth a step of its own, km. */
const leastKm = 1500;
const daysPerYear = 365.25;

/**
 * The life before the first record, assumed to have been like the unit's own recorded charges.
 * @param newAtStart whether the record says that the unit was new when its records begin
 * @returns null when there is none: the unit was new, or the distance before is small
 */
export function unrecordedLifeOf(
  timeline: UnitTimeline,
  newAtStart: boolean,
  coefficients: Coefficients,
): UnrecordedLife | null {
  const first = timeline.charges[0];
  if (first === undefined || (newAtStart && first.startBasis === 'in_service')) return null;
  const km = distanceBefore(timeline, first, newAtStart, coefficients);
  if (km < leastKm) return null;
  const typical = typicalCharge(timeline, coefficients);
  const charges = Math.max(1, Math.round(km / typical.exposure.distanceKm));
  return {
    exposure: partOfExposure(typical.exposure, km / charges / typical.exposure.distanceKm),
    charges,
    charge: typical.charge,
  };
}

function distanceBefore(
  timeline: UnitTimeline,
  first: OilCharge,
  newAtStart: boolean,
  coefficients: Coefficients,
): number {
  const odometerKm = first.startOdometerKm ?? timeline.metersAt(first.startDay)?.odometerKm ?? null;
  if (odometerKm !== null) return odometerKm;
  if (timeline.inServiceDay !== null) {
    const days = first.startDay - timeline.inServiceDay;
    return Math.max(0, days * timeline.duty.kmPerDay);
  }
  return newAtStart ? 0 : coefficients['evidence.prehistory_km'];
}

/**
 * Distance and days between drains by the unit's recorded ones, those that most likely hide others counted as more.
 * @param from place of the first charge that counts
 * @returns km and days, each above 0; without a recorded drain what is usual for such units
 */
export function usualCharge(
  { charges, duty }: UnitTimeline,
  from: number,
): { readonly distanceKm: number; readonly days: number } {
  let count = 0;
  let distanceKm = 0;
  let days = 0;
  for (const charge of charges.slice(from)) {
    if (charge.running || charge.startBasis !== 'drain' || !(charge.exposure.distanceKm > 500)) continue;
    count += 1 + charge.hiddenDrainChance * charge.hiddenDrains;
    distanceKm += charge.exposure.distanceKm;
    days += charge.endDay - charge.startDay;
  }
  if (count > 0) return { distanceKm: distanceKm / count, days: Math.max(1, days / count) };
  return { distanceKm: duty.usualIntervalKm ?? Infinity, days: duty.usualIntervalDays ?? daysPerYear };
}

/** The mean of the unit's complete charges; where there is none, the running one at the assumed interval. */
function typicalCharge(
  timeline: UnitTimeline,
  coefficients: Coefficients,
): { exposure: Exposure; charge: OilCharge } {
  const complete = timeline.charges.filter((charge) => !charge.running && charge.exposure.distanceKm > 500);
  const charge = complete[0] ?? timeline.charges[0];
  if (complete.length === 0) {
    const running = charge.exposure;
    const interval = coefficients['evidence.prehistory_interval_km'];
    if (running.distanceKm > 100)
      return { exposure: partOfExposure(running, interval / running.distanceKm), charge };
    const { duty } = timeline;
    const days = duty.kmPerDay > 0 ? interval / duty.kmPerDay : daysPerYear;
    return {
      exposure: {
        ...running,
        distanceKm: interval,
        days,
        idleHours: duty.idleHoursPerDay * days,
        fuelLiters: null,
      },
      charge,
    };
  }
  let distanceKm = 0;
  let drivingHours = 0;
  let engineKm = 0;
  let trips = 0;
  let idleHours = 0;
  let ptoHours = 0;
  let days = 0;
  let ambient = 0;
  let towing = 0;
  let dust = 0;
  let starts = 0;
  for (const { exposure } of complete) {
    distanceKm += exposure.distanceKm;
    const driving = exposure.distanceKm / exposure.speedKmh;
    drivingHours += driving;
    engineKm += driving * (exposure.enginePaceKmh ?? exposure.speedKmh);
    trips += exposure.distanceKm / exposure.tripKm;
    idleHours += exposure.idleHours;
    ptoHours += exposure.ptoHours;
    days += exposure.days;
    ambient += exposure.ambientC * exposure.distanceKm;
    towing += exposure.towingShare * exposure.distanceKm;
    dust += exposure.dustShare * exposure.distanceKm;
    starts += exposure.soakedStartsPerDay * exposure.days;
  }
  const count = complete.length;
  return {
    exposure: {
      distanceKm: distanceKm / count,
      speedKmh: distanceKm / drivingHours,
      ...(charge.exposure.enginePaceKmh === undefined ? {} : { enginePaceKmh: engineKm / drivingHours }),
      tripKm: distanceKm / trips,
      idleHours: idleHours / count,
      ptoHours: ptoHours / count,
      days: days / count,
      ambientC: ambient / distanceKm,
      towingShare: towing / distanceKm,
      dustShare: dust / distanceKm,
      soakedStartsPerDay: days > 0 ? starts / days : charge.exposure.soakedStartsPerDay,
      fuelLiters: null,
      litersPer100Km: charge.exposure.litersPer100Km,
    },
    charge,
  };
}
