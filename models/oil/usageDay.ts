/**
 * Days since 1970-01-01 of an ISO date, without making any text: records are read in millions.
 * @param iso `YYYY-MM-DD`
 * @returns whole days, e.g. 2026-03-31 → 20543
 * Source: days-from-civil count, proleptic Gregorian calendar; agrees with models/schema/day.ts.
 */
export function dayOf(iso: string): number {
  const digit = (at: number) => iso.charCodeAt(at) - 48;
  const year = digit(0) * 1000 + digit(1) * 100 + digit(2) * 10 + digit(3);
  return dayOfCivil(year, digit(5) * 10 + digit(6), digit(8) * 10 + digit(9));
}

/** Days since 1970-01-01 of a year, a month 1–12 and a day of the month. */
export function dayOfCivil(year: number, month: number, dayOfMonth: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + dayOfMonth - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

const firstYear = 1900;
const months = 12 * 300;

/** First day of each month from January 1900 on. */
export const monthStarts: Float64Array = Float64Array.from({ length: months + 1 }, (_, index) =>
  dayOfCivil(firstYear + Math.floor(index / 12), (index % 12) + 1, 1),
);

/**
 * Index of a day's month in {@link monthStarts}; index % 12 is the month of the year, 0 = January.
 * Days outside 1900–2199 are taken to the nearest month there.
 */
export function monthIndexOf(day: number): number {
  let index = Math.floor((day - monthStarts[0]) / 30.436875);
  index = Math.max(0, Math.min(months - 1, index));
  while (index > 0 && monthStarts[index] > day) index--;
  while (index < months - 1 && monthStarts[index + 1] <= day) index++;
  return index;
}
