import { riskFromForecast, shuffledDeviates } from '../decisions/riskFromForecast.ts';
import type { MoneyUnit } from '../decisions/moneyUnit.ts';
import type { Random } from '../numeric/random.ts';
import type { RiskDraws } from '../decisions/risk.ts';
import type { DutyPicture, UnitTimeline } from '../oil/charge.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Renewal } from '../wear/states.ts';
import type { FailureEstimate } from './failureEstimate.ts';
import { failureCovariates } from './failureCovariates.ts';
import { endingParts } from './failureEpisodes.ts';

/** What money is judged by, of a unit worked through before its call. */
export interface MoneyView {
  readonly history: Pick<UnitHistory, 'unit' | 'engine' | 'site'>;
  readonly timeline: Pick<UnitTimeline, 'asOfDay' | 'firstDay' | 'odometerKm'> & {
    readonly duty: Pick<DutyPicture, 'kmPerDay'>;
  };
  readonly states: { readonly renewals: readonly Pick<Renewal, 'part' | 'day'>[] };
  readonly failure: FailureEstimate | null;
}

/** What the money side needs beside the unit itself. */
export interface MoneySetting {
  /** horizon of the unit's chance of failure, d */
  readonly horizonDays: number;
  /** Weibull shape of the fleet's timing sets on their wear clock, above 0 */
  readonly shape: number;
  /** one standard normal for each draw, what is not known of the whole fleet */
  readonly fleetDeviates: Float64Array;
  /** share of the doubt that all units have in common, 0..1 */
  readonly fleetShare: number;
  readonly random: Random;
}

const daysPerMonth = 365.25 / 12;
/** Use beyond this many months says no more than "old". */
const mostMonths = 600;

/** What was seen on the part in place and leaves with it; an earlier failure of the unit stays. */
const leaving: ReadonlySet<string> = new Set(
  failureCovariates
    .filter(({ name, kind }) => kind === 'evidence' && name !== 'failed_before')
    .map(({ words }) => words),
);

/**
 * Deviates for one unit by itself: evenly spread, in order, so that nothing is drawn.
 * @param count 1 or more
 */
export function evenDeviates(count: number): Float64Array {
  return shuffledDeviates(count, () => 0.999_999);
}

/**
 * A unit as the money side takes it: how it may fail from its chance with range, what renewal and failure cost from its
 * engine family and site, cover and disposal. Costs that are not recorded stay null and are filled, and said, by
 * `unitCosts`.
 * @returns see {@link MoneyUnit}; risk null where the chance is not known
 * Source: {@link riskFromForecast}; a new part is without what was seen on the old one.
 */
export function moneyUnitOf(view: MoneyView, setting: MoneySetting): MoneyUnit {
  const { history, timeline } = view;
  const { unit, engine, site } = history;
  return {
    unitNumber: unit.unitNumber,
    family: unit.engineFamily,
    risk: riskOfView(view, setting),
    plannedCents: null,
    plannedPartsCents: engine?.plannedPartsCostCents ?? null,
    plannedHours: engine?.plannedHours ?? null,
    labourCentsPerHour: site?.labourRatePerHourCents ?? null,
    plannedDowntimeDays: engine?.plannedDowntimeDays ?? null,
    failureCents: engine?.unplannedCostCents ?? null,
    failureDowntimeDays: engine?.unplannedDowntimeDays ?? null,
    downtimeCentsPerDay: engine?.downtimeCostPerDayCents ?? null,
    disposalDay: unit.plannedDisposalOn === null ? null : dayFromIso(unit.plannedDisposalOn),
    warranty:
      unit.warrantyUntilOn === null && unit.warrantyUntilKm === null
        ? null
        : {
            untilDay: unit.warrantyUntilOn === null ? null : dayFromIso(unit.warrantyUntilOn),
            untilKm: unit.warrantyUntilKm,
            odometerKm: timeline.odometerKm,
            kmPerDay: timeline.duty.kmPerDay,
          },
    stateProbabilities: null,
  };
}

/** Days ahead that the unit's chance is for: the horizon, or up to its disposal. */
export function daysAheadOf(view: MoneyView, horizonDays: number): number {
  const leaves = view.history.unit.plannedDisposalOn;
  if (leaves === null) return horizonDays;
  const days = Math.min(horizonDays, dayFromIso(leaves) - view.timeline.asOfDay);
  return days > 0 ? days : horizonDays;
}

/** Months of use on the timing set in place: since its renewal, else since service began and what was run before. */
export function monthsInPlace({ history, timeline, states }: MoneyView): number {
  const renewed = states.renewals.findLast(({ part }) => endingParts.includes(part));
  const since = Math.max(0, timeline.asOfDay - (renewed?.day ?? timeline.firstDay)) / daysPerMonth;
  const before =
    renewed === undefined
      ? (history.unit.inServiceOdometerKm ?? 0) / Math.max(1, timeline.duty.kmPerDay) / daysPerMonth
      : 0;
  return Math.min(mostMonths, since + before);
}

/** The chance if nothing is renewed as planned, and the log hazard that leaves with the part in place. */
export function unrenewedChance({ probability, low, high, contributions }: FailureEstimate): {
  readonly probability: number;
  readonly low: number;
  readonly high: number;
  readonly leavesWithPart: number;
} {
  let practice = 0;
  let leavesWithPart = 0;
  for (const { cause, logHazard } of contributions)
    if (cause === 'planned renewals as practised') practice += logHazard;
    else if (leaving.has(cause)) leavesWithPart += Math.max(0, logHazard);
  const without = (chance: number): number =>
    Math.min(
      1 - 1e-6,
      Math.max(1e-6, -Math.expm1(Math.log1p(-Math.min(chance, 1 - 1e-9)) * Math.exp(-practice))),
    );
  const mid = without(probability);
  return {
    probability: mid,
    low: Math.min(mid, without(low)),
    high: Math.max(mid, without(high)),
    leavesWithPart,
  };
}

function riskOfView(view: MoneyView, setting: MoneySetting): RiskDraws | null {
  if (view.failure === null) return null;
  return riskFromForecast(
    {
      ...unrenewedChance(view.failure),
      horizonMonths: daysAheadOf(view, setting.horizonDays) / daysPerMonth,
      ageMonths: monthsInPlace(view),
      shape: setting.shape,
    },
    setting.fleetDeviates,
    setting.fleetShare,
    setting.random,
  );
}
