import type { UnitHistory } from '../schema/history.ts';
import type { DutyRules } from './dutyRules.ts';
import { firstDayOf, lastDayOf, totalOn, type MeterSet } from './meterSet.ts';
import type { MeterSeries } from './meterSeries.ts';
import { dayOf } from './usageDay.ts';

/** What a unit's own records measure of its duty; null: not measured. */
export interface OwnDuty {
  /** days of odometer behind kmPerDay, 0 if none */
  readonly odometerDays: number;
  readonly kmPerDay: number | null;
  /** engine hours behind the shares */
  readonly idleBasisHours: number;
  readonly idleShare: number | null;
  readonly speedBasisHours: number;
  readonly speedKmh: number | null;
  readonly kmPerHourBasisHours: number;
  readonly kmPerHour: number | null;
  readonly ptoShare: number | null;
  readonly starts: number;
  readonly tripKm: number | null;
  readonly startsPerDay: number | null;
  /** distance behind the towing share, km */
  readonly towingBasisKm: number;
  readonly towingShare: number | null;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

function overlap(...series: readonly MeterSeries[]): Span | null {
  let from = -Infinity;
  let to = Infinity;
  for (const one of series) {
    if (one.days.length < 2) return null;
    from = Math.max(from, firstDayOf(one));
    to = Math.min(to, lastDayOf(one));
  }
  return to > from ? { from, to } : null;
}

const during = (series: MeterSeries, span: Span): number =>
  series.days.length === 0 ? 0 : totalOn(series, span.to) - totalOn(series, span.from);

/** A span cut to the last years: duty changes. */
function recent(span: Span | null, years: number): Span | null {
  if (span === null) return null;
  return { from: Math.max(span.from, span.to - 365 * years), to: span.to };
}

/**
 * Measures what a unit's own meters tell of its duty over their last three years.
 * @param history the unit's records
 * @param meters the unit's meters
 * @param rules catalog values
 * @param asOfDay days since 1970-01-01
 */
export function ownDuty(history: UnitHistory, meters: MeterSet, rules: DutyRules, asOfDay: number): OwnDuty {
  const { odometer, hours, idle, pto } = meters;
  const driven = recent(overlap(odometer), 2);
  const withHours = recent(overlap(odometer, hours), 3);
  const withIdle = recent(overlap(hours, idle), 3);
  const all = recent(overlap(odometer, hours, idle), 3);
  const odometerDays = driven === null ? 0 : driven.to - driven.from;
  const kmPerDay = driven !== null && odometerDays >= 28 ? during(odometer, driven) / odometerDays : null;
  const idleHours = withIdle === null ? 0 : during(hours, withIdle);
  const idleShare =
    withIdle !== null && idleHours > 10 ? Math.min(0.97, during(idle, withIdle) / idleHours) : null;
  const drivingHours = all === null ? 0 : during(hours, all) - during(idle, all) - during(pto, all);
  const speed = all !== null && drivingHours > 5 ? during(odometer, all) / drivingHours : null;
  const speedHolds = speed !== null && speed >= rules.slowSpeedKmh && speed <= rules.fastSpeedKmh;
  const engineHours = withHours === null ? 0 : during(hours, withHours);
  const perHour = withHours !== null && engineHours > 10 ? during(odometer, withHours) / engineHours : null;
  const perHourHolds = perHour !== null && perHour > 0.5 && perHour <= rules.fastSpeedKmh;
  const standing = recent(overlap(hours, pto), 3);
  const standingHours = standing === null ? 0 : during(hours, standing);
  return {
    odometerDays,
    kmPerDay,
    idleBasisHours: idleShare === null ? 0 : idleHours,
    idleShare,
    speedBasisHours: speedHolds ? drivingHours : 0,
    speedKmh: speedHolds ? speed : null,
    kmPerHourBasisHours: perHourHolds ? engineHours : 0,
    kmPerHour: perHourHolds ? perHour : null,
    ptoShare:
      standing !== null && standingHours > 10 ? Math.min(0.9, during(pto, standing) / standingHours) : null,
    ...ownTrips(history, meters, rules, asOfDay),
  };
}

/** Trips from starts where they are counted, else from the share of short trips (exponential trip lengths). */
function ownTrips(history: UnitHistory, meters: MeterSet, rules: DutyRules, asOfDay: number) {
  const { odometer } = meters;
  let starts = 0;
  let startKm = 0;
  let startDays = 0;
  let shortSum = 0;
  let shortCount = 0;
  let towedKm = 0;
  let towingBasisKm = 0;
  const told = history.readings.some(
    (reading) => reading.starts !== null || reading.shortTripShare !== null || reading.towingShare !== null,
  );
  if (told) {
    const days = history.readings.map((reading) => dayOf(reading.readOn));
    const distinct = [...new Set(days)].sort((a, b) => a - b);
    const previous = new Map(distinct.map((day, index) => [day, index > 0 ? distinct[index - 1] : null]));
    history.readings.forEach((reading, index) => {
      const day = days[index];
      const since = previous.get(day) ?? null;
      if (day > asOfDay || since === null) return;
      const km = odometer.days.length < 2 ? 0 : totalOn(odometer, day) - totalOn(odometer, since);
      if (reading.starts !== null) {
        starts += reading.starts;
        startKm += km;
        startDays += day - since;
      }
      if (reading.shortTripShare !== null) {
        shortSum += reading.shortTripShare;
        shortCount++;
      }
      if (reading.towingShare !== null && km > 0) {
        towedKm += reading.towingShare * km;
        towingBasisKm += km;
      }
    });
  }
  let tripKm: number | null = null;
  if (starts >= 5 && startKm > 0) tripKm = startKm / starts;
  else if (shortCount > 0) tripKm = tripFromShortShare(shortSum / shortCount, rules.shortTripKm);
  return {
    starts: starts >= 5 ? starts : tripKm === null ? 0 : 10 * shortCount,
    tripKm: tripKm === null ? null : Math.min(500, Math.max(0.3, tripKm)),
    startsPerDay: starts >= 5 && startDays > 0 ? starts / startDays : null,
    towingBasisKm,
    towingShare: towingBasisKm > 0 ? towedKm / towingBasisKm : null,
  };
}

/**
 * Mean trip length from the share of trips shorter than a length, for exponential trip lengths: L = −x/ln(1 − share).
 * @param share 0..1
 * @param shortKm what counts as short, km
 * @returns km; half of the trips below 8 km → 11.5 km
 * Source: exponential distribution; that trips follow one is an assumption.
 */
export function tripFromShortShare(share: number, shortKm: number): number {
  const held = Math.min(0.98, Math.max(0.02, share));
  return -shortKm / Math.log(1 - held);
}
