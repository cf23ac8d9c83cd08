import { z } from 'zod';
import { isoDate } from './day.ts';

/** Units of measure that a stored number can have; the field's name ends in the matching suffix. */
export type FieldUnit =
  | 'km'
  | 'h'
  | 'L'
  | '°C'
  | '°'
  | 'mm²/s'
  | 'mg KOH/g'
  | '%'
  | 'A/cm'
  | 'ppm'
  | 'mm'
  | 's'
  | 'kPa'
  | '1/min'
  | 'cents'
  | 'd'
  | 'months'
  | 'share'
  | 'count'
  | '1';

interface Bounds {
  /** lowest value that can be true */
  readonly min?: number;
  /** highest value that can be true */
  readonly max?: number;
  /** column name in files where it is not the snake_case of the field */
  readonly column?: string;
}

/** A number with a unit of measure, or null for not known. */
export function quantity(unit: FieldUnit, bounds: Bounds = {}) {
  let number = z.number();
  if (bounds.min !== undefined) number = number.min(bounds.min);
  if (bounds.max !== undefined) number = number.max(bounds.max);
  return number
    .nullable()
    .default(null)
    .meta({ type: 'number', unit, ...bounds });
}

/** Money in integer cents; in files a plain decimal in the settings' currency under `column`. */
export function money(column: string) {
  return z.number().int().min(0).nullable().default(null).meta({ type: 'money', unit: 'cents', column });
}

/** A share 0..1, or null for not known. */
export function share() {
  return z
    .number()
    .min(0)
    .max(1)
    .nullable()
    .default(null)
    .meta({ type: 'number', unit: 'share', min: 0, max: 1 });
}

/** Free text, or null for not known. */
export function text(column?: string) {
  return z.string().min(1).nullable().default(null).meta({ type: 'text', column });
}

/** Text that a row cannot do without. */
export function requiredText(column?: string) {
  return z.string().min(1).meta({ type: 'text', required: true, column });
}

/** A date, or null for not known. */
export function day() {
  return isoDate.nullable().default(null).meta({ type: 'date' });
}

/** A date that a row cannot do without. */
export function requiredDay() {
  return isoDate.meta({ type: 'date', required: true });
}

/** Yes, no, or null for not known. */
export function flag() {
  return z.boolean().nullable().default(null).meta({ type: 'flag' });
}

/** One of a fixed set of words, or null for not known. */
export function choice<const T extends readonly [string, ...string[]]>(values: T) {
  return z.enum(values).nullable().default(null).meta({ type: 'choice', values });
}

/** One of a fixed set of words that a row cannot do without. */
export function requiredChoice<const T extends readonly [string, ...string[]]>(values: T) {
  return z.enum(values).meta({ type: 'choice', values, required: true });
}

/** What every kind of record may carry. */
export const commonFields = {
  recordId: text().describe("the source's own key; the same key again is a correction of that row"),
  recordedOn: day().describe('when it became known, where that is later than the event'),
  workOrder: text().describe('the work order it belongs to'),
};
