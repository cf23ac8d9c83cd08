import type { DutyPicture } from './charge.ts';
import { equivalentKm } from './dutyEquivalent.ts';
import { severeClass, type SevereCriterion } from './dutySevere.ts';
import type { KnownDays } from './chargeSpread.ts';
import type { UsageStory } from './usageExposure.ts';
import { tripsBetween } from './usageTrips.ts';

const yearDays = 365;

/** What is metered in the last year of a unit. */
export interface PictureBasis {
  readonly known: { readonly km: KnownDays; readonly hours: KnownDays; readonly idle: KnownDays };
  readonly endDay: number;
  readonly idleEquivalentKm: number;
  /** spread of the distance where it was told from fuel alone, else 0 */
  readonly distanceLogSd: number;
}

function toldLately(known: KnownDays, endDay: number): boolean {
  return Math.min(endDay, known.to) - Math.max(endDay - yearDays, known.from) >= yearDays / 4;
}

/**
 * The unit's present duty: its rate of use with its parts, trips, climate and whether that is severe service.
 * @param story the unit's time axis
 * @param basis what is metered, and the settings' km per idle hour
 */
export function dutyPicture(story: UsageStory, basis: PictureBasis): DutyPicture {
  const { axis, duty, rules, climate } = story;
  const { daily, rate } = axis;
  const { endDay, known } = basis;
  const engineHours = daily.drive + daily.idle + daily.pto;
  const idleShare = engineHours > 1e-9 ? daily.idle / engineHours : duty.idleShare.value;
  const usualSpeed = duty.speedKmh.value;
  const speed = daily.drive > 1e-9 && daily.km > 1e-9 ? daily.km / daily.drive : usualSpeed;
  const speedKmh = Math.max(rules.speedMinKmh, duty.hybrid ? speed : Math.min(rules.speedMaxKmh, speed));
  const paceKmh = duty.hybrid ? Math.min(usualSpeed, speedKmh) : speedKmh;
  const trips = tripsBetween(
    story.trips,
    duty,
    climate,
    rules,
    endDay - yearDays,
    endDay,
    daily.km * yearDays,
  );
  const warmer = story.trips === null ? 0 : trips.ambientC - usualMean(climate.byMonthC);
  const ambientByMonthC = climate.byMonthC.map((meanC) => meanC + warmer);
  const severe = severeClass(
    {
      tripKm: trips.tripKm,
      speedKmh: paceKmh,
      idleShare,
      towingShare: trips.towingShare,
      dustShare: duty.dustShare,
      ambientByMonthC,
    },
    rules,
  );
  const inferred: string[] = [];
  if (!toldLately(known.km, endDay)) inferred.push('kmPerDay');
  if (!toldLately(known.hours, endDay)) inferred.push('engineHours');
  if (!toldLately(known.idle, endDay)) inferred.push('idleShare');
  if (!trips.startsTold) inferred.push('tripKm');
  inferred.push('soakedStarts', 'dustShare');
  if (!trips.towingTold) inferred.push('towingShare');
  if (!climate.recorded) inferred.push('ambient');
  const assumed = (name: SevereCriterion['name']): boolean => {
    if (name === 'dust') return true;
    if (name === 'short_trip') return inferred.includes('tripKm');
    if (name === 'idle') return inferred.includes('idleShare');
    if (name === 'stop_go') return inferred.includes('engineHours') || inferred.includes('idleShare');
    if (name === 'towing') return inferred.includes('towingShare');
    return inferred.includes('ambient');
  };
  const gapDays = axis.meteredTo === null ? yearDays : Math.max(0, endDay - axis.meteredTo);
  const variance =
    rate.logSd ** 2 +
    basis.distanceLogSd ** 2 +
    rules.useComingLogSd ** 2 +
    (rate.periodLogSd ** 2 * 28) / 90 +
    rules.useGapLogSd ** 2 * (gapDays / 90);
  return {
    kmPerDay: daily.km,
    engineHoursPerDay: engineHours,
    idleHoursPerDay: daily.idle,
    ptoHoursPerDay: daily.pto,
    idleShare,
    speedKmh,
    tripKm: trips.tripKm,
    soakedStartsPerDay: duty.soakedStartsPerDay.value,
    towingShare: trips.towingShare,
    dustShare: duty.dustShare,
    ambientByMonthC,
    litersPer100Km: duty.litersPer100Km?.value ?? null,
    severe: severe.severe,
    severeReasons: severe.criteria.map((one) => (assumed(one.name) ? `${one.words}, assumed` : one.words)),
    inferred,
    useLogSd: Math.min(rules.useMaxLogSd, Math.sqrt(variance)),
    equivalentKmPerDay: equivalentKm(
      { distanceKm: daily.km, idleHours: daily.idle, ptoHours: daily.pto },
      basis.idleEquivalentKm,
    ),
    severityFactor: severe.factor,
    ...(duty.hybrid ? { enginePaceKmh: paceKmh } : {}),
    usualIntervalKm: duty.intervalKm.value,
    usualIntervalDays: duty.intervalDays.value,
  };
}

const usualMean = (months: readonly number[]): number => months.reduce((sum, value) => sum + value, 0) / 12;
