import { equivalentKm } from './dutyEquivalent.ts';
import type { DutyRules } from './dutyRules.ts';
import type { UnitDuty } from './dutyUnit.ts';
import { useRate, type UseRate } from './usageRate.ts';
import type { Steps, UsageTable } from './usageTable.ts';

/** Use a day in its parts. */
export interface DailyUse {
  readonly km: number;
  readonly drive: number;
  readonly idle: number;
  readonly pto: number;
}

/** The whole time axis of a unit, the ends beyond its meters filled at its rate of use. */
export interface UsageAxis {
  readonly table: UsageTable;
  /** the use the unit goes on with, a day */
  readonly daily: DailyUse;
  readonly rate: UseRate;
  /** first and last day that an odometer or hour meter reaches; null: no meter at all */
  readonly meteredFrom: number | null;
  readonly meteredTo: number | null;
}

const yearDays = 365;

/** Value of a cumulative column on a day, straight between the knots, held at the ends. */
export function columnOn(days: Int32Array, column: Float64Array, day: number): number {
  const last = days.length - 1;
  if (day <= days[0]) return column[0];
  if (day >= days[last]) return column[last];
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (days[middle] <= day) low = middle;
    else high = middle;
  }
  return column[low] + ((column[high] - column[low]) * (day - days[low])) / (days[high] - days[low]);
}

function summed(steps: Float64Array, start: number): Float64Array {
  const sums = new Float64Array(steps.length + 1);
  sums[0] = start;
  for (let i = 0; i < steps.length; i++) sums[i + 1] = sums[i] + steps[i];
  return sums;
}

/** Use a day of comparable units, in its parts. */
function groupDaily(duty: UnitDuty, rules: DutyRules): DailyUse {
  const km = duty.kmPerDay.value;
  const drive = (km * (duty.hybrid ? rules.hybridDistanceShare : 1)) / duty.speedKmh.value;
  const standing = duty.ptoShare.value;
  const idling = duty.idleShare.value * (1 - standing);
  const driving = Math.max(0.05, 1 - standing - idling);
  return { km, drive, idle: (drive * idling) / driving, pto: (drive * standing) / driving };
}

const equivalent = (use: DailyUse, idleKm: number): number =>
  equivalentKm({ distanceKm: use.km, idleHours: use.idle, ptoHours: use.pto }, idleKm);

/**
 * Fills the days before the first and after the last meter value at the unit's rate of use and adds everything up.
 * @param steps the metered part
 * @param duty the unit's duty
 * @param idleEquivalentKm distance that one idle hour stands for, km
 */
export function usageAxis(
  steps: Steps,
  duty: UnitDuty,
  rules: DutyRules,
  idleEquivalentKm: number,
): UsageAxis {
  const { days } = steps;
  const last = days.length - 1;
  const has = (known: { low: number; high: number }) => known.high >= known.low;
  const lows = [steps.distance, steps.hours].filter(has).map((known) => known.low);
  const highs = [steps.distance, steps.hours].filter(has).map((known) => known.high);
  const low = lows.length > 0 ? Math.min(...lows) : 0;
  const high = highs.length > 0 ? Math.max(...highs) : 0;
  const group = groupDaily(duty, rules);
  const use = new Float64Array(last);
  for (let i = low; i < high; i++) use[i] = steps.km[i] + idleEquivalentKm * (steps.idle[i] + steps.pto[i]);
  const total = summed(use, 0);
  const rate = useRate(
    (day) => columnOn(days, total, day),
    days[low],
    days[high],
    days.subarray(low, high + 1),
    { perDay: equivalent(group, idleEquivalentKm), logSd: duty.kmPerDay.spread },
    rules,
  );
  const daily = scaledMix(steps, total, low, high, rate.perDay, group, idleEquivalentKm);
  fill(steps, high, last, daily);
  const early = scaledMix(
    steps,
    total,
    low,
    high,
    longRate(total, days, low, high, rate),
    group,
    idleEquivalentKm,
  );
  const ahead = days[low] - days[0];
  const mostKm = has(steps.distance) ? steps.firstKm : Infinity;
  const held = early.km * ahead > mostKm ? mostKm / (early.km * ahead) : 1;
  fill(steps, 0, low, {
    km: early.km * held,
    drive: early.drive * held,
    idle: early.idle * held,
    pto: early.pto * held,
  });
  let kmBefore = 0;
  if (has(steps.distance)) {
    kmBefore = steps.firstKm;
    for (let i = 0; i < steps.distance.low; i++) kmBefore -= steps.km[i];
  }
  return {
    table: {
      days,
      km: summed(steps.km, Math.max(0, kmBefore)),
      drive: summed(steps.drive, 0),
      idle: summed(steps.idle, 0),
      pto: summed(steps.pto, 0),
    },
    daily,
    rate,
    meteredFrom: lows.length > 0 ? days[low] : null,
    meteredTo: highs.length > 0 ? days[high] : null,
  };
}

function fill(steps: Steps, from: number, to: number, daily: DailyUse): void {
  for (let i = from; i < to; i++) {
    const span = steps.days[i + 1] - steps.days[i];
    steps.km[i] = daily.km * span;
    steps.drive[i] = daily.drive * span;
    steps.idle[i] = daily.idle * span;
    steps.pto[i] = daily.pto * span;
  }
}

function longRate(total: Float64Array, days: Int32Array, low: number, high: number, rate: UseRate): number {
  const span = days[high] - days[low];
  return span >= 28 ? (total[high] - total[low]) / span : rate.perDay;
}

/** A rate of use in the proportions of the last metered year; of comparable units where nothing is metered. */
function scaledMix(
  steps: Steps,
  total: Float64Array,
  low: number,
  high: number,
  perDay: number,
  group: DailyUse,
  idleEquivalentKm: number,
): DailyUse {
  const sums = { km: 0, drive: 0, idle: 0, pto: 0 };
  for (let i = high - 1; i >= low && steps.days[high] - steps.days[i + 1] < yearDays; i--) {
    sums.km += steps.km[i];
    sums.drive += steps.drive[i];
    sums.idle += steps.idle[i];
    sums.pto += steps.pto[i];
  }
  const whole = equivalent(sums, idleEquivalentKm);
  const enough = total[high] - total[low] > 0 && whole > 1;
  const mix = enough ? sums : group;
  const factor = perDay / Math.max(1e-9, equivalent(mix, idleEquivalentKm));
  return { km: mix.km * factor, drive: mix.drive * factor, idle: mix.idle * factor, pto: mix.pto * factor };
}
