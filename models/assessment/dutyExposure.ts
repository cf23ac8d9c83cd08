import type { DutyPicture } from '../oil/charge.ts';
import type { Exposure } from '../oil/exposure.ts';
import { monthByMonth } from '../oil/monthByMonth.ts';
import { monthOfDay } from '../schema/day.ts';

/** Mean ambient temperature of a coming span from monthly means, °C. */
export function ambientOver(ambientByMonthC: readonly number[], fromDay: number, days: number): number {
  const steps = Math.max(1, Math.min(12, Math.round(days / 30)));
  let sum = 0;
  for (let step = 0; step < steps; step += 1)
    sum += ambientByMonthC[monthOfDay(fromDay + ((step + 0.5) / steps) * days)];
  return sum / steps;
}

/**
 * What a unit's present duty would put an oil charge through over some days to come.
 * @param days calendar days, above 0
 * @returns totals of the span; 30 days at 60 km and 0.5 idle hours a day → 1800 km, 15 h
 */
export function dutyExposure(duty: DutyPicture, fromDay: number, days: number): Exposure {
  return {
    distanceKm: duty.kmPerDay * days,
    speedKmh: duty.speedKmh,
    ...(duty.enginePaceKmh === undefined ? {} : { enginePaceKmh: duty.enginePaceKmh }),
    tripKm: duty.tripKm,
    idleHours: duty.idleHoursPerDay * days,
    ptoHours: duty.ptoHoursPerDay * days,
    days,
    ambientC: ambientOver(duty.ambientByMonthC, fromDay, days),
    towingShare: duty.towingShare,
    dustShare: duty.dustShare,
    soakedStartsPerDay: duty.soakedStartsPerDay,
    fuelLiters: null,
    litersPer100Km: duty.litersPer100Km,
  };
}

/** Days of a mean month. */
const monthDays = 365.25 / 12;

/** Two years of the present duty month by month, so that a coming winter counts. */
export function comingMonths(duty: DutyPicture, fromDay: number): readonly Exposure[] {
  return monthByMonth(dutyExposure(duty, fromDay, monthDays), duty.ambientByMonthC, fromDay, 24);
}

/**
 * The same unit with another idle share: driving stays as it is, idle hours change.
 * @param idleShare of engine hours, 0 to below 1
 */
export function withIdleShare(duty: DutyPicture, idleShare: number): DutyPicture {
  const loadedHours = duty.engineHoursPerDay - duty.idleHoursPerDay;
  const idleHoursPerDay = (loadedHours * idleShare) / (1 - idleShare);
  return {
    ...duty,
    idleShare,
    idleHoursPerDay,
    engineHoursPerDay: loadedHours + idleHoursPerDay,
  };
}
