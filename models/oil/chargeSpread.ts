import type { ExposureSpread } from './charge.ts';
import type { Steps } from './usageTable.ts';
import type { UsageStory } from './usageExposure.ts';
import type { MeterSeries } from './meterSeries.ts';

const largest = 2;

/**
 * Standard deviation of a meter's total on a day, km: 0 on a reading, between two readings that of a walk tied at both
 * ends (rate·spread·√(period·span·f(1 − f))), beyond the last reading growing with the gap.
 */
export function totalSdOn(series: MeterSeries, day: number, perDay: number, story: UsageStory): number {
  const { rate } = story.axis;
  const { days, values } = series;
  const count = days.length;
  if (count === 0) return 0;
  const beyond = day < days[0] ? days[0] - day : day > days[count - 1] ? day - days[count - 1] : 0;
  if (beyond > 0) {
    const gap = beyond / 90;
    const variance =
      rate.logSd ** 2 +
      (rate.periodLogSd ** 2 * 28) / Math.max(7, beyond) +
      story.rules.useGapLogSd ** 2 * gap;
    return perDay * beyond * Math.min(story.rules.useMaxLogSd, Math.sqrt(variance));
  }
  let low = 0;
  let high = count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (days[middle] <= day) low = middle;
    else high = middle;
  }
  const span = days[high] - days[low];
  if (span <= 0) return 0;
  const share = (day - days[low]) / span;
  const used = values[high] - values[low];
  const sd = (used / span) * rate.periodLogSd * Math.sqrt(28 * span * share * (1 - share));
  return Math.min(sd, used / 2);
}

const held = (value: number): number =>
  Math.min(largest, Math.max(0, Number.isFinite(value) ? value : largest));

/** What part of a span a known stretch of days covers, 0..1. */
function coverage(from: number, to: number, low: number, high: number): number {
  if (to <= from) return high >= low ? 1 : 0;
  return Math.max(0, Math.min(to, high) - Math.max(from, low)) / (to - from);
}

/** The days between which a meter is known. */
export interface KnownDays {
  readonly from: number;
  readonly to: number;
}

export function knownDays(steps: Steps, known: { low: number; high: number }): KnownDays {
  return known.high > known.low
    ? { from: steps.days[known.low], to: steps.days[known.high] }
    : { from: Infinity, to: -Infinity };
}

/** Which meters tell a span, and how sure its totals are. */
export interface SpanKnowledge {
  readonly spread: ExposureSpread;
  readonly inferred: readonly string[];
}

/**
 * How sure the exposure of a span is and which parts of it were inferred.
 * @param story the unit's time axis
 * @param odometer the odometer (or what stands for it)
 * @param known the days between which odometer, hours, idle and power take-off hours are metered
 * @param distanceLogSd spread of the distance where the odometer itself is inferred, 0 where it is not
 */
export function spanKnowledge(
  story: UsageStory,
  odometer: MeterSeries,
  known: {
    readonly km: KnownDays;
    readonly hours: KnownDays;
    readonly idle: KnownDays;
    readonly pto: KnownDays;
  },
  from: number,
  to: number,
  distanceKm: number,
  distanceLogSd: number,
  trips: {
    readonly tripLogSd: number;
    readonly ambientSdC: number;
    readonly startsTold: boolean;
    readonly towingTold: boolean;
  },
): SpanKnowledge {
  const { duty, rules, axis } = story;
  const share = (days: KnownDays) => coverage(from, to, days.from, days.to);
  const kmShare = share(known.km);
  const hourShare = share(known.hours);
  const idleShare = Math.min(hourShare, share(known.idle));
  const perDay = axis.daily.km;
  const ends = Math.hypot(totalSdOn(odometer, from, perDay, story), totalSdOn(odometer, to, perDay, story));
  const unmetered = odometer.days.length === 0 && hourShare < 1;
  const byHours =
    (1 - kmShare) *
    hourShare *
    Math.hypot(duty.speedKmh.spread, duty.idleShare.spread * duty.idleShare.value);
  const distance = Math.hypot(
    unmetered ? (1 - hourShare) * axis.rate.logSd : distanceKm > 1 ? ends / distanceKm : 0,
    byHours,
    distanceLogSd,
  );
  const idle = duty.idleShare.value;
  const withoutHours = 1 - hourShare;
  const hoursOnly = hourShare - idleShare;
  const drivingHours = Math.hypot(
    withoutHours * duty.speedKmh.spread,
    hoursOnly * idle * duty.idleShare.spread,
  );
  const idleHours = Math.hypot(
    withoutHours * Math.hypot(duty.idleShare.spread, duty.speedKmh.spread),
    hoursOnly * (1 - idle) * duty.idleShare.spread,
  );
  const inferred: string[] = [];
  if (kmShare < 0.9 || distanceLogSd > 0.1) inferred.push('distanceKm');
  if (hourShare < 0.9) inferred.push('speedKmh');
  if (idleShare < 0.9) inferred.push('idleHours');
  if (share(known.pto) < 0.9 && duty.ptoShare.value > 0) inferred.push('ptoHours');
  if (!trips.startsTold) inferred.push('tripKm');
  inferred.push('soakedStartsPerDay', 'dustShare');
  if (!trips.towingTold) inferred.push('towingShare');
  if (!story.climate.recorded && trips.ambientSdC > rules.sdAmbientSiteC) inferred.push('ambientC');
  return {
    spread: {
      distance: held(distance),
      drivingHours: held(drivingHours),
      idleHours: held(idleHours),
      tripKm: held(trips.tripLogSd),
      starts: held(duty.soakedStartsPerDay.spread),
      ambientC: trips.ambientSdC,
    },
    inferred,
  };
}
