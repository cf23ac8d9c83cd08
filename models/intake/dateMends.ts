import { dayFromIso, isoFromDay } from '../schema/day.ts';
import { kindTable } from '../schema/kinds.ts';
import type { CheckRecord } from './checkRecord.ts';
import { readDate } from './dateText.ts';
import type { Reason } from './reasons.ts';
import type { Recognised, RecognisedColumn } from './recognised.ts';

/** A date proposed for one that does not fit. */
export interface DateMend {
  readonly how: 'date';
  /** ISO day */
  readonly value: string;
  readonly field: string;
  readonly words: string;
}

/** The same calendar day so many years on; null where that year does not have it. */
function yearsOn(iso: string, years: number): string | null {
  const shifted = `${Number(iso.slice(0, 4)) + years}${iso.slice(4)}`;
  return isoFromDay(dayFromIso(shifted)) === shifted ? shifted : null;
}

/**
 * In January many still write the old year: the day a year later, when the meter fits there.
 * @param lastDay the latest day that anything is known of; no record is moved much beyond it
 * @param fitsOn whether the record's meter value fits on that day
 */
export function oldYearMend(
  entry: CheckRecord,
  day: number,
  lastDay: number,
  fitsOn: (day: number) => boolean,
): DateMend | null {
  const { dateField } = kindTable[entry.kind];
  const iso = isoFromDay(day);
  if (dateField === null || iso.slice(5, 7) !== '01') return null;
  const later = yearsOn(iso, 1);
  if (later === null || dayFromIso(later) > lastDay + 31 || !fitsOn(dayFromIso(later))) return null;
  return {
    how: 'date',
    field: dateField,
    value: later,
    words: `${iso} may be ${later}: the old year, written in January`,
  };
}

/** A row held only because its date lies ahead, by less than a year: it may be of the year before. */
export function futureYearMend(
  reasons: readonly Reason[],
  cells: readonly string[],
  recognised: Recognised,
  asOf: string,
): DateMend | null {
  const [only] = reasons;
  if (only === undefined || reasons.length > 1 || only.code !== 'date_future' || only.field === null)
    return null;
  const at = recognised.columns.findIndex(({ field }) => field === only.field);
  const iso = readDate(cells[at] ?? '', recognised.columns[at]?.dateOrder ?? null, asOf);
  const earlier = iso.startsWith('date_') ? null : yearsOn(iso, -1);
  if (earlier === null || earlier > asOf) return null;
  return {
    how: 'date',
    field: only.field,
    value: earlier,
    words: `${iso} may be ${earlier}: the wrong year`,
  };
}

/** The cell of a date with its year put right, in the way it was written; the ISO day where that can't be done. */
export function datedCell(cell: string, column: RecognisedColumn, to: string, asOf: string): string {
  const from = readDate(cell, column.dateOrder, asOf);
  if (!from.startsWith('date_'))
    for (const [old, now] of [
      [from.slice(0, 4), to.slice(0, 4)],
      [from.slice(2, 4), to.slice(2, 4)],
    ] as const)
      for (let at = cell.indexOf(old); at >= 0; at = cell.indexOf(old, at + 1)) {
        const written = cell.slice(0, at) + now + cell.slice(at + old.length);
        if (readDate(written, column.dateOrder, asOf) === to) return written;
      }
  return to;
}
