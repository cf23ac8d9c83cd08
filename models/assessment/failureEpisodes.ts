import type { UnitTimeline } from '../oil/charge.ts';
import { engineHoursOf } from '../oil/amounts.ts';
import type { EarlierUse, Entry, Episode, Segment } from '../reliability/fleet/episode.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { FaultCodes } from '../wear/faultCode.ts';
import { disposalFailureOf, renewalsOf } from '../wear/renewals.ts';
import type { FillOf } from '../wear/segments.ts';
import type { Renewal } from '../wear/states.ts';
import { covariateIndex, failureCovariates } from './failureCovariates.ts';
import { issueFitted } from './partIssue.ts';
import { drainsRecorded, nominalWear, type NominalCharge } from './nominalWear.ts';
import { standingEvidence, type Standing } from './standingEvidence.ts';

/** What the lives of a unit's timing sets are built from. */
export interface EpisodeInputs {
  readonly timeline: UnitTimeline;
  readonly history: UnitHistory;
  readonly fillOf: FillOf;
  readonly faultCodes: FaultCodes;
  readonly coefficients: Coefficients;
  /** whether any unit of the fleet has engine hours; without any, hours are left to the failure model */
  readonly hoursKnown: boolean;
}

/** Parts whose renewal ends the life of a timing set. */
export const endingParts: readonly Renewal['part'][] = [
  'timing_set',
  'phaser',
  'tensioner_guides',
  'belt',
  'engine',
];

/** Renewals that end the life of a set, those of one day as one; the most certain failure of the day counts. */
function endings(inputs: EpisodeInputs): Renewal[] {
  const { history, timeline, faultCodes, coefficients } = inputs;
  const byDay = new Map<number, Renewal>();
  for (const renewal of renewalsOf(history, timeline.asOfDay, faultCodes, coefficients)) {
    if (!endingParts.includes(renewal.part)) continue;
    const known = byDay.get(renewal.day);
    if (known === undefined || renewal.failureChance > known.failureChance) byDay.set(renewal.day, renewal);
  }
  return [...byDay.values()].sort((a, b) => a.day - b.day);
}

/**
 * The lives of a unit's timing sets, from installation (or the best guess of it) to failure, planned renewal, disposal
 * or the as-of day, cut where an oil charge ends, evidence begins or ends to stand, and at whole years before that day.
 */
export function failureEpisodes(inputs: EpisodeInputs): readonly Episode[] {
  const { timeline, history, faultCodes, coefficients } = inputs;
  const ends = endings(inputs);
  const disposal = disposalFailureOf(history, timeline.asOfDay);
  const disposedDay = history.unit.disposedOn === null ? null : dayFromIso(history.unit.disposedOn);
  const retired = history.unit.status === 'retired';
  const lastDay =
    disposedDay !== null && disposedDay <= timeline.asOfDay
      ? disposedDay
      : retired
        ? (timeline.lastRecordDay ?? timeline.asOfDay)
        : timeline.asOfDay;
  const allRenewals = renewalsOf(history, timeline.asOfDay, faultCodes, coefficients);
  const standing = standingEvidence(history, allRenewals, faultCodes, coefficients, timeline.asOfDay);
  const recorded = drainsRecorded(history);
  const nominal = recorded ? nominalWear(timeline, inputs.fillOf, allRenewals, coefficients) : null;
  const family = (history.unit.engineFamily ?? 'not known').trim().toLowerCase();
  const episodes: Episode[] = [];
  let from = observedFrom(inputs);
  let failedBefore = false;
  // a part of another issue has a life of its own, learned as that of one more family
  let issue: string | null = null;
  const add = (to: number, end: Episode['end'], failureChance: number | undefined): void => {
    episodes.push({
      unitNumber: history.unit.unitNumber,
      family: issue === null ? family : `${family}, issue ${issue}`,
      segments: segmentsBetween(from, Math.max(from, to), inputs, nominal, standing, failedBefore),
      end,
      failureChance,
      entry: episodes.length === 0 ? entryOf(inputs) : 'new',
      endedDaysAgo: Math.max(0, timeline.asOfDay - to),
    });
  };
  for (const renewal of ends) {
    if (renewal.day < from || renewal.day > lastDay) continue;
    add(renewal.day, renewal.failureChance >= 0.5 ? 'failed' : 'planned', renewal.failureChance);
    failedBefore ||= renewal.failureChance >= 0.5;
    from = renewal.day;
    issue = issueFitted(history, renewal.day);
  }
  if (disposal !== null && lastDay >= from) add(lastDay, 'failed', 1);
  else if (lastDay < timeline.asOfDay) add(lastDay, 'disposed', undefined);
  else add(lastDay, 'running', undefined);
  return episodes;
}

const yearDays = 365;

/** Logarithms beyond this are extreme states that must not carry a fit. */
const largestLog = 1.5;

function limited(value: number): number {
  return Math.min(largestLog, Math.max(-largestLog, value));
}

/** Covariates of a day, centred: 0 is the usual. */
function covariatesAt(
  day: number,
  charge: NominalCharge | null,
  inputs: EpisodeInputs,
  standing: readonly Standing[],
  failedBefore: boolean,
): number[] {
  const { coefficients } = inputs;
  const values = failureCovariates.map(() => 0);
  if (charge !== null) {
    values[covariateIndex.oil_stress] = limited(
      Math.log(charge.wearMultiplier / coefficients['failure.usual_wear_multiplier']),
    );
    values[covariateIndex.sludge] = Math.log(1 + coefficients['wear.phaser_sludge'] * charge.sludge);
    values[covariateIndex.overrun] = Math.min(2, charge.overrun);
    values[covariateIndex.starts] = Math.log(
      (1 + coefficients['failure.start_hours'] * charge.startsPerHour) /
        (1 + coefficients['failure.start_hours'] * coefficients['failure.usual_starts_per_hour']),
    );
  }
  for (const entry of standing)
    if (entry.fromDay <= day && day < entry.toDay)
      values[covariateIndex[entry.covariate]] = Math.max(
        values[covariateIndex[entry.covariate]],
        entry.value,
      );
  if (failedBefore) values[covariateIndex.failed_before] = 1;
  return values;
}

function segmentsBetween(
  from: number,
  to: number,
  inputs: EpisodeInputs,
  nominal: readonly NominalCharge[] | null,
  standing: readonly Standing[],
  failedBefore: boolean,
): Segment[] {
  const { timeline, hoursKnown, history } = inputs;
  const cuts = new Set<number>([from, to]);
  for (const charge of timeline.charges)
    if (charge.startDay > from && charge.startDay < to) cuts.add(charge.startDay);
  for (const { fromDay, toDay } of standing)
    for (const day of [fromDay, toDay]) if (day > from && day < to) cuts.add(day);
  // years counted back from today: a failure is judged against its year, and use ahead goes by the last one
  for (let day = timeline.asOfDay - yearDays; day > from; day -= yearDays) if (day < to) cuts.add(day);
  const days = [...cuts].sort((a, b) => a - b);
  const bookKm = history.engine?.bookIntervalKm ?? null;
  const segments: Segment[] = [];
  for (let i = 0; i + 1 < days.length; i += 1) {
    const exposure = timeline.exposureBetween(days[i], days[i + 1]);
    const index = timeline.charges.findLastIndex((charge) => charge.startDay <= days[i]);
    const charge = index < 0 ? null : timeline.charges[index];
    segments.push({
      days: days[i + 1] - days[i],
      distanceKm: exposure.distanceKm,
      engineHours: hoursKnown ? engineHoursOf(exposure) : null,
      idleHours: hoursKnown ? exposure.idleHours : null,
      covariates: covariatesAt(
        days[i],
        // a charge that most likely hides drains says nothing of how the oil was kept
        index < 0 || nominal === null || timeline.charges[index].hiddenDrainChance > 0.5
          ? null
          : nominal[index],
        inputs,
        standing,
        failedBefore,
      ),
      pastBook: charge !== null && bookKm !== null && nominal !== null && charge.exposure.distanceKm > bookKm,
    });
  }
  return segments;
}

/** Days without any record after the in-service day beyond which a failure in between may well be unrecorded. */
const silentDays = 90;

/**
 * First day from which a failure would be on record: the in-service day, or the first record where nobody wrote anything
 * down for a while after it. Survival before that day was not observed and must not count as such.
 */
function observedFrom({ history, timeline }: EpisodeInputs): number {
  const firsts = [
    history.services[0]?.servicedOn,
    history.readings[0]?.readOn,
    history.fuel[0]?.filledOn,
    history.samples[0]?.sampledOn,
    history.findings[0]?.foundOn,
    history.codes[0]?.seenOn,
  ].filter((on) => on !== undefined);
  const first = Math.min(...firsts.map(dayFromIso));
  return Number.isFinite(first) && first - timeline.firstDay > silentDays ? first : timeline.firstDay;
}

/** How the first set came under observation: new, run before, or perhaps renewed before anyone wrote it down. */
function entryOf(inputs: EpisodeInputs): Entry {
  const { timeline, history, coefficients, hoursKnown } = inputs;
  const start = observedFrom(inputs);
  const first = timeline.metersAt(start);
  const { unit } = history;
  const whenBought =
    unit.acquiredOn === null
      ? (unit.inServiceOdometerKm ?? 0)
      : (unit.acquiredOdometerKm ?? unit.inServiceOdometerKm ?? 0);
  const earlierKm = Math.max(first?.odometerKm ?? 0, whenBought);
  if (earlierKm <= coefficients['failure.new_below_km']) return 'new';
  const perDay = Math.max(1, timeline.duty.kmPerDay);
  const use: EarlierUse = {
    days: Math.max(start - timeline.firstDay, earlierKm / perDay),
    distanceKm: earlierKm,
    engineHours: hoursKnown
      ? Math.max(first?.engineHours ?? 0, earlierKm / Math.max(5, timeline.duty.speedKmh))
      : null,
    idleHours: null,
    logSd: start > timeline.firstDay ? 0 : coefficients['failure.earlier_use_log_sd'],
  };
  const renewed = 1 - Math.exp(-((earlierKm / coefficients['failure.renewed_before_km']) ** 2));
  return renewed < 0.02
    ? { kind: 'used', ...use }
    : { kind: 'maybe_renewed_before', probability: renewed, ...use };
}
