import { monthOfDay } from '../schema/day.ts';
import { partOfExposure } from './condition.ts';
import type { Exposure } from './exposure.ts';

const daysPerMonth = 365.25 / 12;

/**
 * A duty to come, month by month with the season's temperature.
 * @param duty any stretch of it; only its mix per day matters, days above 0
 * @param ambientByMonthC mean ambient of January–December, °C; 12 values
 * @param fromDay first day, days since 1970-01-01
 * @param months how many, 1 or more
 * @returns stretches of a twelfth of a year each, from `fromDay` on
 * Throws when days is not above 0 or there are not 12 temperatures.
 */
export function monthByMonth(
  duty: Exposure,
  ambientByMonthC: readonly number[],
  fromDay: number,
  months: number,
): readonly Exposure[] {
  if (!(duty.days > 0)) throw new Error(`days must be above 0, got ${duty.days}`);
  if (ambientByMonthC.length !== 12)
    throw new Error(`ambientByMonthC must hold 12 values, got ${ambientByMonthC.length}`);
  const month = partOfExposure(duty, daysPerMonth / duty.days);
  return Array.from({ length: Math.max(1, Math.round(months)) }, (_, i) => ({
    ...month,
    ambientC: ambientByMonthC[monthOfDay(fromDay + (i + 0.5) * daysPerMonth)],
  }));
}
