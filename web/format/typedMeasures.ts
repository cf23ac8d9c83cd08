import type { Settings } from '../../models/schema/settings.ts';
import { kmPerMile, litersPerQuart, plain, volume } from './measures.ts';
import { money } from './money.ts';

type Measures = Settings['measures'];

/** The reader's unit of distance, for the label of a field. */
export const distanceUnit = (measures: Measures): string => (measures === 'us' ? 'mi' : 'km');
/** The reader's unit of oil, for the label of a field. */
export const volumeUnit = (measures: Measures): string => (measures === 'us' ? 'qt' : 'L');

const toStep = (value: number, digits: number): number => Number(value.toFixed(digits));

/** Km of a distance that was typed in the reader's unit; to a tenth. */
export function typedKm(value: number, measures: Measures): number {
  return measures === 'us' ? toStep(value * kmPerMile, 1) : value;
}

/** Litres of oil that were typed in the reader's unit; to a hundredth. */
export function typedLiters(value: number, measures: Measures): number {
  return measures === 'us' ? toStep(value * litersPerQuart, 2) : value;
}

/** Cents per litre of a price that was typed for the reader's unit. */
export function typedLiterCents(cents: number, measures: Measures): number {
  return measures === 'us' ? Math.round(cents / litersPerQuart) : cents;
}

/** Whether an item of the shelves is oil, which is counted by volume; all else is counted by the piece. */
export const isOil = (item: string): boolean => /^oil /i.test(item.trim());

/** So much of an item as people read it: "60 L", "9". */
export function itemAmount(item: string, quantity: number, measures: Measures): string {
  return isOil(item) ? volume(quantity, measures) : plain(quantity, 1);
}

/** What a piece, a litre or a quart of an item costs. */
export function itemPrice(item: string, cents: number, currency: string, measures: Measures): string {
  if (!isOil(item)) return money(cents, currency);
  return `${money(Math.round(measures === 'us' ? cents * litersPerQuart : cents), currency)} per ${volumeUnit(measures)}`;
}
