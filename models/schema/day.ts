import { z } from 'zod';

/** A calendar date as ISO 8601 text, `YYYY-MM-DD`. */
export const isoDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, { error: 'must be a date like 2026-03-31', abort: true })
  .refine((text) => isoFromDay(dayFromIso(text)) === text, 'must be a day that exists')
  .meta({ unit: 'date' });
export type IsoDate = string;

/**
 * Days since 1970-01-01 of a proleptic Gregorian date (the days-from-civil count, common practice).
 * @param iso `YYYY-MM-DD`
 * @returns whole days; 2026-03-31 → 20543
 */
export function dayFromIso(iso: string): number {
  const year = Number(iso.slice(0, 4));
  const month = Number(iso.slice(5, 7));
  const day = Number(iso.slice(8, 10));
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

/**
 * The ISO date of a day number; the inverse of {@link dayFromIso}.
 * @param day days since 1970-01-01 (rounded down)
 */
export function isoFromDay(day: number): string {
  const z = Math.floor(day) + 719468;
  const era = Math.floor(z / 146097);
  const dayOfEra = z - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthShifted = Math.floor((5 * dayOfYear + 2) / 153);
  const day0 = dayOfYear - Math.floor((153 * monthShifted + 2) / 5) + 1;
  const month = monthShifted < 10 ? monthShifted + 3 : monthShifted - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day0).padStart(2, '0')}`;
}

/** Month of the year, 0 = January, of a day number. */
export function monthOfDay(day: number): number {
  return Number(isoFromDay(day).slice(5, 7)) - 1;
}

/** The months in words, January first. */
export const monthNames = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;
