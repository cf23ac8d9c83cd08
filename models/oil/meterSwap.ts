import type { UnitHistory } from '../schema/history.ts';
import type { MeterPoints } from './meterPoints.ts';
import { dayOf } from './usageDay.ts';

/** A meter replaced on a day; null: that value is not on record. */
export interface MeterSwap {
  readonly day: number;
  /** last value of the old meter */
  readonly old: number | null;
  /** first value of the new meter */
  readonly fresh: number | null;
}

/** Replacements of the odometer and of the engine-hour meter. */
export interface MeterSwaps {
  readonly odometer: readonly MeterSwap[];
  readonly hours: readonly MeterSwap[];
}

const kmPerMile = 1.609344;

interface NotePart {
  readonly value: number;
  readonly unit: 'km' | 'mi' | 'h' | null;
}

/** Reads `old=123,456 mi` and the like; null when the word is not there. */
function notePart(note: string, word: 'old' | 'new'): NotePart | null {
  const found = new RegExp(
    `\\b${word}\\s*[=:]?\\s*(\\d[\\d\\s,.']*\\d|\\d)\\s*(km|mi|miles|h|hr|hrs|hours)?\\b`,
    'i',
  ).exec(note);
  if (found === null) return null;
  const digits = found[1].replace(/[\s']/g, '');
  const grouped = /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(digits);
  const value = Number(grouped ? digits.replace(/,/g, '') : digits.replace(',', '.'));
  const named = (found[2] ?? '').toLowerCase();
  const unit = named === '' ? null : named === 'km' ? 'km' : named.startsWith('m') ? 'mi' : 'h';
  return Number.isFinite(value) ? { value, unit } : null;
}

/** Last value on record before a day, or null. */
function lastBefore(points: MeterPoints, day: number): number | null {
  let best: number | null = null;
  for (let i = 0; i < points.days.length && points.days[i] < day; i++) best = points.values[i];
  return best;
}

const miss = (value: number, expected: number | null): number =>
  expected === null ? 0 : Math.abs(Math.log((value + 1) / (expected + 1)));

function swapFromRows(day: number, values: readonly number[], expected: number | null): MeterSwap {
  const distinct = [...new Set(values)].sort((a, b) => a - b);
  if (distinct.length < 2) return { day, old: null, fresh: null };
  const top = distinct[distinct.length - 1];
  const bottom = distinct[0];
  const oldIsTop = miss(top, expected) <= miss(bottom, expected);
  return oldIsTop ? { day, old: top, fresh: bottom } : { day, old: bottom, fresh: top };
}

/**
 * Finds replaced meters: service rows read as `meter_replaced`, with the old and the new value in the note
 * (`old=… new=…`) or in two rows of that day. Values without a unit are taken in the one (km, miles, hours) that fits
 * the records before.
 * @param history the unit's records
 * @param odometer odometer points of the unit
 * @param hours engine-hour points of the unit
 * @returns replacements in order of day
 */
export function findMeterSwaps(history: UnitHistory, odometer: MeterPoints, hours: MeterPoints): MeterSwaps {
  const byDay = new Map<number, UnitHistory['services'][number][]>();
  for (const service of history.services) {
    if (!service.read.works.includes('meter_replaced')) continue;
    const day = dayOf(service.servicedOn);
    byDay.set(day, [...(byDay.get(day) ?? []), service]);
  }
  const swaps: { odometer: MeterSwap[]; hours: MeterSwap[] } = { odometer: [], hours: [] };
  for (const [day, rows] of [...byDay].sort((a, b) => a[0] - b[0])) {
    const kmBefore = lastBefore(odometer, day);
    const hoursBefore = lastBefore(hours, day);
    const sameDay = history.services.filter((service) => dayOf(service.servicedOn) === day);
    let byNote: { meter: 'odometer' | 'hours'; swap: MeterSwap } | null = null;
    const inOrder = [...rows].sort((a, b) => ((a.note ?? a.work) < (b.note ?? b.work) ? -1 : 1));
    for (const row of inOrder) {
      const text = `${row.note ?? ''} ; ${row.work}`;
      const old = notePart(text, 'old');
      const fresh = notePart(text, 'new');
      if (old === null && fresh === null) continue;
      byNote = readNote(day, old, fresh, text, kmBefore, hoursBefore);
    }
    const present = (values: readonly (number | null)[]) => values.filter((value) => value !== null);
    const fromKm = swapFromRows(day, present(sameDay.map((row) => row.odometerKm)), kmBefore);
    const fromHours = swapFromRows(day, present(sameDay.map((row) => row.engineHoursH)), hoursBefore);
    swaps.odometer.push(byNote?.meter === 'odometer' ? byNote.swap : fromKm);
    swaps.hours.push(byNote?.meter === 'hours' ? byNote.swap : fromHours);
  }
  return swaps;
}

function readNote(
  day: number,
  old: NotePart | null,
  fresh: NotePart | null,
  text: string,
  kmBefore: number | null,
  hoursBefore: number | null,
): { meter: 'odometer' | 'hours'; swap: MeterSwap } {
  const unit = old?.unit ?? fresh?.unit ?? null;
  const saysHours = unit === 'h' || /\b(hour|hr)s?\b/i.test(text);
  const scaled = (factor: number): MeterSwap => ({
    day,
    old: old === null ? null : old.value * factor,
    fresh: fresh === null ? null : fresh.value * factor,
  });
  const reference = old?.value ?? null;
  const asKm = reference === null ? 0 : miss(reference, kmBefore);
  const asMiles = reference === null ? Infinity : miss(reference * kmPerMile, kmBefore);
  const asHours = reference === null || hoursBefore === null ? Infinity : miss(reference, hoursBefore);
  if (saysHours || (unit === null && asHours < 0.1 && asHours < Math.min(asKm, asMiles) - 0.5))
    return { meter: 'hours', swap: scaled(1) };
  const miles = unit === 'mi' || (unit === null && kmBefore !== null && asMiles < asKm - 0.2);
  return { meter: 'odometer', swap: scaled(miles ? kmPerMile : 1) };
}
