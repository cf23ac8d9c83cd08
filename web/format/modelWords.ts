import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { date } from './dates.ts';
import { plain } from './measures.ts';

const isoDay = /(?<![\d-])\d{4}-\d{2}-\d{2}(?![\d-])/g;
/** Numbers before a measure: in spaced groups ("2 700 km"), or four digits and more in one ("1000 km"). */
const counted =
  /(?<![\d.,])(\d{1,3}(?:[ \u00a0\u202f]\d{3})+|\d{4,})(?= (?:km|h|days|engine hours|or \d|and \d|to \d))/g;

/** A sentence of the models as its reader writes days and thousands, so that it reads as the tables beside it. */
export function modelWords(words: string): string {
  return words
    .replace(isoDay, (day) => (isoFromDay(dayFromIso(day)) === day ? date(day) : day))
    .replace(counted, (number) => plain(Number(number.replace(/\D/g, ''))));
}
