import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { date } from './dates.ts';
import { kmPerMile, plain } from './measures.ts';
import { readerMeasures } from './readerMeasures.ts';

const isoDay = /(?<![\d-])\d{4}-\d{2}-\d{2}(?![\d-])/g;
/** Numbers before a measure: in spaced groups ("2 700 km"), or four digits and more in one ("1000 km"). */
const counted =
  /(?<![\d.,])(\d{1,3}(?:[ \u00a0\u202f]\d{3})+|\d{4,})(?= (?:km|h|days|engine hours|or \d|and \d|to \d))/g;
const number = String.raw`\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?`;
/** One distance or speed, or two that share their unit: "2.4 km", "1900 to 2300 km", "27 km/h". */
const metric = new RegExp(
  String.raw`(?<![\d.,]|per )(?:(${number})( to | or | and |–))?(${number}) km(/h)?(?![\w²])`,
  'g',
);

/** A distance in miles with as many digits as it had in kilometres, two at least; none beyond the point from 100 on. */
function miles(words: string): string {
  const text = words.replace(/[ \u00a0\u202f]/g, '');
  const value = Number(text) / kmPerMile;
  const told = text.replace('.', '').replace(/^0+/, '');
  const digits = Math.max(2, text.includes('.') ? told.length : told.replace(/0+$/, '').length);
  const kept = Number(value.toPrecision(Math.min(digits, 15)));
  return plain(kept, kept >= 100 || Number.isInteger(kept) ? 0 : kept < 1 ? 2 : 1);
}

function inMiles(words: string): string {
  return words.replace(metric, (_all, from: string | undefined, joint: string, to: string, speed) => {
    const first = from === undefined ? '' : `${miles(from)}${joint}`;
    return `${first}${miles(to)} ${speed === undefined ? 'mi' : 'mph'}`;
  });
}

/**
 * A sentence of the models as its reader writes days, thousands and distances, so that it reads as the tables beside it.
 * Rates per 1000 km stay: they are the laboratory's.
 */
export function modelWords(words: string, measures: Settings['measures'] = readerMeasures()): string {
  return (measures === 'us' ? inMiles(words) : words)
    .replace(isoDay, (day) => (isoFromDay(dayFromIso(day)) === day ? date(day) : day))
    .replace(counted, (one) => plain(Number(one.replace(/\D/g, ''))));
}
