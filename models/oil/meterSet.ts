import type { UnitHistory } from '../schema/history.ts';
import type { DutyRules } from './dutyRules.ts';
import { collectMeterPoints, type MeterPoints } from './meterPoints.ts';
import { meterSeries, type MeterLimits, type MeterSeries } from './meterSeries.ts';
import { findMeterSwaps, type MeterSwap } from './meterSwap.ts';
import { dayOf } from './usageDay.ts';

/** All meters of a unit as true totals, and the days between which there are records. */
export interface MeterSet {
  readonly odometer: MeterSeries;
  readonly hours: MeterSeries;
  readonly idle: MeterSeries;
  readonly pto: MeterSeries;
  /** cumulative fuel of readings, L (fills are a series of their own) */
  readonly fuel: MeterSeries;
  /** meters that start with a nil taken on the in-service day: names of the fields here */
  readonly anchored: readonly ('odometer' | 'hours' | 'idle')[];
  readonly firstRecordDay: number | null;
  readonly lastRecordDay: number | null;
}

/** Total of a meter on a day, straight between its points; outside them the nearest point's. 0 for an empty series. */
export function totalOn(series: MeterSeries, day: number): number {
  const { days, values } = series;
  const count = days.length;
  if (count === 0) return 0;
  if (day <= days[0]) return values[0];
  if (day >= days[count - 1]) return values[count - 1];
  let low = 0;
  let high = count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (days[middle] <= day) low = middle;
    else high = middle;
  }
  return values[low] + ((values[high] - values[low]) * (day - days[low])) / (days[high] - days[low]);
}

export const firstDayOf = (series: MeterSeries): number => series.days[0];
export const lastDayOf = (series: MeterSeries): number => series.days[series.days.length - 1];

/** A series with a nil put before it. */
function withNil(series: MeterSeries, day: number): MeterSeries {
  const days = new Int32Array(series.days.length + 1);
  const values = new Float64Array(series.days.length + 1);
  days[0] = day;
  days.set(series.days, 1);
  values.set(series.values, 1);
  return { ...series, days, values };
}

/**
 * Builds the unit's meters from its records.
 * @param history the unit's records
 * @param rules catalog values
 * @param asOfDay days since 1970-01-01
 */
export function meterSet(history: UnitHistory, rules: DutyRules, asOfDay: number): MeterSet {
  const points = collectMeterPoints(history, asOfDay);
  const limits = (floorPerDay: number, ceilingPerDay: number): MeterLimits => ({
    rateFactor: rules.meterRateFactor,
    floorPerDay,
    ceilingPerDay,
    slackDays: rules.meterSlackDays,
  });
  const kmLimits = limits(rules.meterRateFloorKm, rules.meterRateCeilingKm);
  const hourLimits = limits(rules.meterRateCeilingHours, rules.meterRateCeilingHours);
  const literLimits = limits(rules.meterRateCeilingLiters, rules.meterRateCeilingLiters);
  const swaps = findMeterSwaps(history, points.odometer, points.hours);
  // idle, stand-by and fuel counters sit in the same instrument: cut where their own values fall back
  const noted = swaps.odometer.map((swap): MeterSwap => ({ day: swap.day, old: null, fresh: null }));
  const series = (meter: MeterPoints, at: readonly MeterSwap[], limit: MeterLimits) =>
    meterSeries(meter, at, limit);
  const odometer = series(points.odometer, swaps.odometer, kmLimits);
  const hours = series(points.hours, swaps.hours, hourLimits);
  const idle = series(points.idle, noted, hourLimits);
  const pto = series(points.pto, noted, hourLimits);
  const fuel = series(points.fuel, noted, literLimits);
  const rest = { pto, fuel, firstRecordDay: points.firstRecordDay, lastRecordDay: points.lastRecordDay };
  return { ...anchoredAtNil(history, rules, asOfDay, odometer, hours, idle), ...rest };
}

/**
 * New units start at nil on the in-service day: taken where no start is on record and the first reading is reached
 * from nil at a believable pace.
 */
function anchoredAtNil(
  history: UnitHistory,
  rules: DutyRules,
  asOfDay: number,
  odometer: MeterSeries,
  hours: MeterSeries,
  idle: MeterSeries,
): Pick<MeterSet, 'odometer' | 'hours' | 'idle' | 'anchored'> {
  const { inServiceOn, inServiceOdometerKm } = history.unit;
  const anchored: ('odometer' | 'hours' | 'idle')[] = [];
  const asBuilt = { odometer, hours, idle, anchored };
  if (inServiceOn === null || dayOf(inServiceOn) > asOfDay) return asBuilt;
  const start = dayOf(inServiceOn);
  let distance = odometer;
  if (odometer.days.length > 0 && firstDayOf(odometer) > start && inServiceOdometerKm === null) {
    const perDay = odometer.values[0] / (firstDayOf(odometer) - start);
    const usual = odometer.usualPerDay ?? 0;
    const believable = Math.max(rules.zeroRateFactor * usual, usual > 0 ? 60 : 250);
    if (perDay <= believable) {
      distance = withNil(odometer, start);
      anchored.push('odometer');
    }
  }
  if (hours.days.length === 0 || firstDayOf(hours) <= start) return { ...asBuilt, odometer: distance };
  const startKm = distance.days.length > 0 ? totalOn(distance, start) : 0;
  const firstHours = hours.values[0];
  const km = distance.days.length > 0 ? totalOn(distance, firstDayOf(hours)) - startKm : null;
  const speed = km === null || firstHours <= 0 ? null : km / firstHours;
  const hoursADay = firstHours / (firstDayOf(hours) - start);
  const usualHours = hours.usualPerDay ?? hoursADay;
  const believable =
    speed === null
      ? hoursADay <= Math.max(1, rules.zeroRateFactor * usualHours) && hoursADay >= usualHours / 5
      : speed >= rules.slowSpeedKmh && speed <= rules.fastSpeedKmh * 0.8;
  if (startKm > 2000 || !believable) return { ...asBuilt, odometer: distance };
  anchored.push('hours');
  const withHours = { odometer: distance, hours: withNil(hours, start), idle, anchored };
  if (idle.days.length === 0 || firstDayOf(idle) <= start) return withHours;
  const share = idle.values[0] / Math.max(1e-9, totalOn(withHours.hours, firstDayOf(idle)));
  if (share > 0.95) return withHours;
  anchored.push('idle');
  return { ...withHours, idle: withNil(idle, start) };
}
