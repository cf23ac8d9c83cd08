import { dayFromIso, isoFromDay } from '../schema/day.ts';
import { fold } from './headerWords.ts';

/** Which part of a date comes first: year, day or month. */
export type DateOrder = 'ymd' | 'dmy' | 'mdy';

/** A date as it stands in a cell, before the order of its parts is settled. */
export type DateShape =
  | { readonly as: 'date'; readonly year: number; readonly month: number; readonly day: number }
  | {
      readonly as: 'parts';
      readonly first: number;
      readonly second: number;
      readonly third: number;
      /** the parts stand between points, as where the day comes first */
      readonly dotted: boolean;
      /** all three parts have two digits */
      readonly short: boolean;
    };

const monthStems: readonly (readonly string[])[] = [
  ['jan', 'janv', 'ene', 'gen', 'sty', 'jaen', 'janner'],
  ['feb', 'fev', 'fevr', 'lut', 'fevereiro'],
  ['mar', 'mrz', 'marz', 'maer', 'marc', 'mrt', 'maa', 'mae'],
  ['apr', 'avr', 'abr', 'kwi'],
  ['may', 'mai', 'mag', 'mayo', 'mei', 'maj', 'maio'],
  ['jun', 'juin', 'giu', 'cze'],
  ['jul', 'juil', 'lug', 'lip'],
  ['aug', 'aou', 'aout', 'ago', 'sie'],
  ['sep', 'sept', 'set', 'wrz'],
  ['oct', 'okt', 'ott', 'out', 'paz'],
  ['nov', 'lis'],
  ['dec', 'dez', 'dic', 'gru'],
];
const monthByStem = new Map(monthStems.flatMap((stems, at) => stems.map((stem) => [stem, at + 1] as const)));

function monthOf(word: string): number | null {
  for (const length of [4, 3]) {
    const month = monthByStem.get(word.slice(0, length));
    if (month !== undefined) return month;
  }
  return null;
}

const isoShape = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ,].*)?$/;
const partsShape = /^(\d{1,2})([-/. ])(\d{1,2})\2 ?(\d{4}|\d{2})(?:[T ,].*)?$/;
const compact = /^(19|20)\d{6}(?:[T ]?\d{4,6})?$/;
const serial = /^\d{5}(?:[.,]\d+)?$/;
const epoch = /^1\d{9}(?:\d{3})?$/;
const dayMonthName =
  /^(?:[a-z]+,? )?(\d{1,2})(?:st|nd|rd|th|er|\.)?[-/. ]*(?:de )?([a-z]{3,})\.?,?[-/. ]*(?:de )?(\d{4}|\d{2})\b/;
const monthNameDay = /^(?:[a-z]+,? )?([a-z]{3,})\.? ?(\d{1,2})(?:st|nd|rd|th)?,? (\d{4}|\d{2})\b/;
const yearMonthName = /^(\d{4})[-/. ]([a-z]{3,})[-/. ](\d{1,2})\b/;

/** 1899-12-30, day zero of spreadsheet serial dates after February 1900. */
const serialZero = -25569;

function named(text: string): DateShape | null {
  const folded = fold(text);
  const dayFirst = dayMonthName.exec(folded);
  const pick = (day: string, word: string, year: string): DateShape | null => {
    const month = monthOf(word);
    return month === null ? null : { as: 'date', year: Number(year), month, day: Number(day) };
  };
  if (dayFirst !== null) return pick(dayFirst[1] ?? '', dayFirst[2] ?? '', dayFirst[3] ?? '');
  const monthFirst = monthNameDay.exec(folded);
  if (monthFirst !== null) return pick(monthFirst[2] ?? '', monthFirst[1] ?? '', monthFirst[3] ?? '');
  const yearFirst = yearMonthName.exec(folded);
  return yearFirst === null ? null : pick(yearFirst[3] ?? '', yearFirst[2] ?? '', yearFirst[1] ?? '');
}

function fromDay(day: number): DateShape {
  const iso = isoFromDay(day);
  return {
    as: 'date',
    year: Number(iso.slice(0, 4)),
    month: Number(iso.slice(5, 7)),
    day: Number(iso.slice(8, 10)),
  };
}

/** Reads the shape of a date: ISO, three numbers, a month's name, `20260331`, a spreadsheet's or a clock's count. */
export function dateShape(cell: string): DateShape | null {
  const iso = isoShape.exec(cell);
  if (iso !== null) return { as: 'date', year: Number(iso[1]), month: Number(iso[2]), day: Number(iso[3]) };
  const parts = partsShape.exec(cell);
  if (parts !== null)
    return {
      as: 'parts',
      first: Number(parts[1]),
      second: Number(parts[3]),
      third: Number(parts[4]),
      dotted: parts[2] === '.',
      short: (parts[4] ?? '').length === 2,
    };
  if (compact.test(cell))
    return {
      as: 'date',
      year: Number(cell.slice(0, 4)),
      month: Number(cell.slice(4, 6)),
      day: Number(cell.slice(6, 8)),
    };
  if (serial.test(cell)) {
    const days = Math.floor(Number(cell.replace(',', '.')));
    return days >= 18_000 && days <= 80_000 ? fromDay(days + serialZero) : null;
  }
  if (epoch.test(cell)) return fromDay(Math.floor(Number(cell.slice(0, 10)) / 86_400));
  return /\p{L}{3}/u.test(cell) ? named(cell) : null;
}

/** Two-digit years: up to ten years past the day of reading in this century, else in the one before. */
function fullYear(year: number, asOf: string): number {
  if (year >= 100) return year;
  return 2000 + year <= Number(asOf.slice(0, 4)) + 10 ? 2000 + year : 1900 + year;
}

export type DateFault = 'date_unreadable' | 'date_impossible' | 'date_ambiguous';

function isoOf(year: number, month: number, day: number, asOf: string): string | DateFault {
  const full = fullYear(year, asOf);
  if (month < 1 || month > 12 || day < 1 || day > 31 || full < 1000 || full > 9999) return 'date_impossible';
  const text = `${full}-${month < 10 ? '0' : ''}${month}-${day < 10 ? '0' : ''}${day}`;
  return day <= 28 || isoFromDay(dayFromIso(text)) === text ? text : 'date_impossible';
}

/**
 * Reads a date.
 * @param order order of the parts in this column, or null when it is not settled
 * @param asOf the day of reading, for two-digit years
 * @returns ISO text, or a fault code
 * @example readDate('31.03.26', 'dmy', '2026-06-01') → '2026-03-31'
 */
export function readDate(cell: string, order: DateOrder | null, asOf: string): string | DateFault {
  if (cell.length === 10 && cell[4] === '-' && cell[7] === '-' && isoShape.test(cell))
    return isoOf(Number(cell.slice(0, 4)), Number(cell.slice(5, 7)), Number(cell.slice(8, 10)), asOf);
  const shape = dateShape(cell);
  if (shape === null) return 'date_unreadable';
  if (shape.as === 'date') return isoOf(shape.year, shape.month, shape.day, asOf);
  const { first, second, third } = shape;
  if (order === 'ymd' && shape.short) return isoOf(first, second, third, asOf);
  const settled = order === 'dmy' || order === 'mdy' ? order : shape.dotted ? 'dmy' : null;
  if (settled === 'dmy') return isoOf(third, second, first, asOf);
  if (settled === 'mdy') return isoOf(third, first, second, asOf);
  if (first > 12 && first <= 31) return isoOf(third, second, first, asOf);
  if (second > 12 && second <= 31) return isoOf(third, first, second, asOf);
  return first === second ? isoOf(third, second, first, asOf) : 'date_ambiguous';
}
