import type { SymptomForm } from '../../models/assessment/symptomForm.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { kmPerMile, kpaPerPsi, litersPerQuart, plain, volume } from './measures.ts';
import { money } from './money.ts';

type Measures = Settings['measures'];

/** The reader's unit of distance, for the label of a field. */
export const distanceUnit = (measures: Measures): string => (measures === 'us' ? 'mi' : 'km');
/** The reader's unit of oil, for the label of a field. */
export const volumeUnit = (measures: Measures): string => (measures === 'us' ? 'qt' : 'L');
/** The reader's unit of pressure, for the label of a field. */
const pressureUnit = (measures: Measures): string => (measures === 'us' ? 'psi' : 'kPa');
/** The reader's unit for a value that is stored in `unit`. */
export const readerUnit = (unit: string, measures: Measures): string =>
  unit === 'L' ? volumeUnit(measures) : unit === 'kPa' ? pressureUnit(measures) : unit;

const toStep = (value: number, digits: number): number => Number(value.toFixed(digits));

/** Km of a distance that was typed in the reader's unit; to a tenth. */
export function typedKm(value: number, measures: Measures): number {
  return measures === 'us' ? toStep(value * kmPerMile, 1) : value;
}

/** Litres of oil that were typed in the reader's unit; to a hundredth. */
export function typedLiters(value: number, measures: Measures): number {
  return measures === 'us' ? toStep(value * litersPerQuart, 2) : value;
}

/** KPa of a pressure that was typed in the reader's unit; to a tenth. */
export function typedKpa(value: number, measures: Measures): number {
  return measures === 'us' ? toStep(value * kpaPerPsi, 1) : value;
}

const bare = /^-?[\d.,]+$/;

/** Signs as they were typed at the desk, with the reader's unit behind every number that stands without one. */
export function typedSigns(form: SymptomForm, measures: Measures): SymptomForm {
  if (measures !== 'us') return form;
  const us = (text: string, unit: string): string =>
    bare.test(text.trim()) ? `${text.trim()} ${unit}` : text;
  return {
    ...form,
    pressure: us(form.pressure, 'psi'),
    levelLiters: us(form.levelLiters, 'qt'),
    oilTemperature: us(form.oilTemperature, '°F'),
  };
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
