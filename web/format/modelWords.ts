import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { date } from './dates.ts';
import { plain } from './measures.ts';
import { money } from './money.ts';
import { readerCurrency, readerMeasures } from './readerMeasures.ts';
import { usWords } from './usWords.ts';

const isoDay = /(?<![\d-])\d{4}-\d{2}-\d{2}(?![\d-])/g;
/** Numbers before a measure: in spaced groups ("2 700 km"), or four digits and more in one ("1000 km"); "1 in 1000". */
const counted =
  /(?<![\d.,])(\d{1,3}(?:[ \u00a0\u202f]\d{3})+|\d{4,}(?:\.\d+)?)(?= (?:km|h|days|engine hours|or \d|and \d|to \d))|(?<=\b1 in )\d{4}/g;
/** A measure that came out of another one with more digits than anybody reads: "275.790292 kPa". */
const converted = /(?<![\d.,])\d+\.\d{3,}(?= (?:kPa|L|°C|mm)(?![\w²/]))/g;
/** One amount of money or two that share their currency: "810 USD", "900 to 3100 USD". */
const amounts = /(?<![\d.,])(?:(-?\d+(?:\.\d\d)?) to )?(-?\d+(?:\.\d\d)?) ([A-Z]{3})(?!\w)/g;

function inMoney(words: string, currency: string): string {
  const shown = (text: string): string => money(Math.round(100 * Number(text)), currency);
  return words.replace(amounts, (all, from: string | undefined, to: string, code: string) => {
    if (code !== currency) return all;
    return from === undefined ? shown(to) : `${shown(from)} to ${shown(to)}`;
  });
}

/**
 * A sentence of the models as its reader writes days, thousands, measures and money, so that it reads as the tables beside
 * it.
 */
export function modelWords(
  words: string,
  measures = readerMeasures(),
  currency: string = readerCurrency(),
): string {
  return inMoney(measures === 'us' ? usWords(words) : words, currency)
    .replace(converted, (one) => plain(Number(one), Number(one) >= 100 ? 0 : Number(one) >= 1 ? 1 : 2))
    .replace(isoDay, (day) => (isoFromDay(dayFromIso(day)) === day ? date(day) : day))
    .replace(counted, (one) => plain(Number(one.replace(/[^\d.]/g, '')), one.split('.')[1]?.length ?? 0));
}
