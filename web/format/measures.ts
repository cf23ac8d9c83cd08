import type { Settings } from '../../models/schema/settings.ts';

export const kmPerMile = 1.609344;
export const litersPerQuart = 0.946352946;
export const kpaPerPsi = 6.894757293;

const formats = new Map<string, Intl.NumberFormat>();

/** A number format of the reader's language; made once, since making one costs more than using it a thousand times. */
function numberFormat(least: number, most: number): Intl.NumberFormat {
  const key = `${least} ${most}`;
  const known = formats.get(key);
  if (known !== undefined) return known;
  const made = new Intl.NumberFormat(undefined, {
    minimumFractionDigits: least,
    maximumFractionDigits: most,
  });
  formats.set(key, made);
  return made;
}

/** Two significant digits for estimates, grouped as the reader's language does. */
export function rounded(value: number, digits = 2): string {
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(value)));
  const unit = 10 ** Math.max(magnitude - digits + 1, -6);
  return numberFormat(0, Math.max(0, digits - 1 - magnitude)).format(Math.round(value / unit) * unit);
}

/** A measured number, without invented precision. */
export function plain(value: number, fractionDigits = 0): string {
  return numberFormat(0, fractionDigits).format(value);
}

/** A range in steps that its reader can tell apart: "0.1 to 1.0"; one number where both ends fall together. */
export function rangeOf(low: number, high: number, step: number): string {
  const digits = Math.max(0, Math.round(-Math.log10(step)));
  const show = numberFormat(digits, digits);
  const [from, to] = [show.format(Math.max(0, low)), show.format(Math.max(0, high))];
  return from === to ? `about ${to}` : `${from} to ${to}`;
}

type Measures = Settings['measures'];

/** A distance in the reader's unit, "12 400 km" or "7 700 mi"; measured values whole, estimates to two digits. */
export function distance(km: number | null, measures: Measures, estimate = false): string {
  if (km === null) return 'not known';
  const value = measures === 'us' ? km / kmPerMile : km;
  return `${estimate ? rounded(value) : plain(value)} ${measures === 'us' ? 'mi' : 'km'}`;
}

/** A number to whole steps of 100, 10 …, for what a meter will show: two digits of it would be another month. */
function toStep(value: number, step: number): string {
  return plain(step * Math.round(value / step));
}

/** An interval to set, down to whole hundreds of the reader's unit: never beyond what was advised. */
export function intervalToSet(km: number, measures: Measures): number {
  return 100 * Math.floor((measures === 'us' ? km / kmPerMile : km) / 100 + 1e-9);
}

/** What the odometer will show, "181,900 km". */
export function odometerAt(km: number | null, measures: Measures): string {
  if (km === null) return 'not known';
  return measures === 'us' ? `${toStep(km / kmPerMile, 100)} mi` : `${toStep(km, 100)} km`;
}

/** What the hour meter will show, "9,880 h". */
export function hourMeterAt(value: number): string {
  return `${toStep(value, 10)} h`;
}

/** A volume of oil in the reader's unit. */
export function volume(liters: number | null, measures: Measures): string {
  if (liters === null) return 'not known';
  return measures === 'us' ? `${plain(liters / litersPerQuart, 1)} qt` : `${plain(liters, 1)} L`;
}

/** A temperature in the reader's unit. */
export function temperature(celsius: number | null, measures: Measures): string {
  if (celsius === null) return 'not known';
  return measures === 'us' ? `${plain((celsius * 9) / 5 + 32)} °F` : `${plain(celsius)} °C`;
}

/** Engine hours. */
export function hours(value: number | null, estimate = false): string {
  if (value === null) return 'not known';
  return `${estimate ? rounded(value) : plain(value)} h`;
}

/** A share as percent. */
export function percent(share: number | null): string {
  if (share === null) return 'not known';
  return `${rounded(100 * share)} %`;
}
