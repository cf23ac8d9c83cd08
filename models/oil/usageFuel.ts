import type { UnitHistory } from '../schema/history.ts';
import type { DutyRules } from './dutyRules.ts';
import type { MeterSeries } from './meterSeries.ts';
import { dayOf } from './usageDay.ts';

/** Fuel burned, as a total over days; between two days the record may or may not be whole. */
export interface FuelRecord {
  readonly days: Int32Array;
  /** litres burned up to that day */
  readonly liters: Float64Array;
  /** 1 where the stretch that ends at the day has a gap: litres are missing there */
  readonly gap: Uint8Array;
}

const noFuel = /\b(def|urea|exhaust fluid|washer|coolant|oil|lube|grease|antifreeze|additive)\b/i;
const none: FuelRecord = { days: new Int32Array(0), liters: new Float64Array(0), gap: new Uint8Array(0) };

/** Fills by day, exact repeats (same day, odometer and litres) taken once; not in any order of the records. */
function fillsByDay(history: UnitHistory, asOfDay: number): Map<number, number> {
  const seen = new Set<string>();
  const byDay = new Map<number, number>();
  for (const fill of history.fuel) {
    if (fill.fuelL === null || fill.fuelL <= 0) continue;
    if (fill.fuel !== null && noFuel.test(fill.fuel)) continue;
    const day = dayOf(fill.filledOn);
    if (day > asOfDay) continue;
    if (fill.odometerKm !== null) {
      const key = `${day}|${fill.odometerKm}|${fill.fuelL}`;
      if (seen.has(key)) continue;
      seen.add(key);
    }
    byDay.set(day, (byDay.get(day) ?? 0) + fill.fuelL);
  }
  return byDay;
}

/**
 * The unit's fuel: a cumulative counter of the readings where there is one, else the fills; a fill is what was burned
 * since the fill before. A stretch much longer than the unit's usual time between fills counts as a gap.
 * @param history the unit's records
 * @param counter cumulative fuel of the readings, L
 * @param rules catalog values
 * @param asOfDay days since 1970-01-01
 */
export function fuelRecord(
  history: UnitHistory,
  counter: MeterSeries,
  rules: DutyRules,
  asOfDay: number,
): FuelRecord {
  const byDay = fillsByDay(history, asOfDay);
  if (counter.days.length >= 2 && counter.days.length * 2 >= byDay.size)
    return {
      days: counter.days,
      liters: counter.values,
      gap: Uint8Array.from(counter.days, (_, i) => (isBreak(counter, i) ? 1 : 0)),
    };
  if (byDay.size < 3) return none;
  const days = Int32Array.from(byDay.keys()).sort();
  const liters = new Float64Array(days.length);
  const steps = new Float64Array(days.length - 1);
  for (let i = 1; i < days.length; i++) {
    liters[i] = liters[i - 1] + (byDay.get(days[i]) ?? 0);
    steps[i - 1] = days[i] - days[i - 1];
  }
  const usual = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)];
  const longest = Math.max(rules.drainSameDays * 7, 4 * usual);
  return {
    days,
    liters,
    gap: Uint8Array.from(days, (day, i) => (i > 0 && day - days[i - 1] > longest ? 1 : 0)),
  };
}

function isBreak(counter: MeterSeries, index: number): boolean {
  return index > 0 && counter.unrecordedBreaks.includes(counter.days[index]);
}

function litersOn(record: FuelRecord, day: number): { liters: number; index: number } {
  const { days, liters } = record;
  let low = 0;
  let high = days.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (days[middle] <= day) low = middle;
    else high = middle;
  }
  const share = Math.min(1, Math.max(0, (day - days[low]) / Math.max(1, days[high] - days[low])));
  return { liters: liters[low] + share * (liters[high] - liters[low]), index: high };
}

/**
 * Fuel burned between two days, or null where the record does not cover at least nine tenths of them without a gap;
 * what little is missing at the ends is filled up at the same rate.
 */
export function fuelBetween(record: FuelRecord, fromDay: number, toDay: number): number | null {
  const count = record.days.length;
  if (count < 2 || toDay <= fromDay) return null;
  const from = Math.max(fromDay, record.days[0]);
  const to = Math.min(toDay, record.days[count - 1]);
  if (to - from < 0.9 * (toDay - fromDay)) return null;
  const start = litersOn(record, from);
  const end = litersOn(record, to);
  let missing = 0;
  for (let i = start.index; i <= end.index; i++)
    if (record.gap[i] === 1) missing += Math.min(to, record.days[i]) - Math.max(from, record.days[i - 1]);
  if (missing > 0.1 * (to - from)) return null;
  return ((end.liters - start.liters) * (toDay - fromDay)) / (to - from);
}
