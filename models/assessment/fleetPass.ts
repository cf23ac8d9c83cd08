import { poolDuty } from '../oil/dutyPool.ts';
import { fitSummary, type FitSummary } from '../reliability/fleet/fitSummary.ts';
import type { FleetFit } from '../reliability/fleet/fleetFit.ts';
import type { Assessment } from '../schema/assessment.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory, UnitHistory } from '../schema/history.ts';
import type { PromiseKept } from '../schema/promise.ts';
import type { FleetSamples } from '../schema/sampleView.ts';
import { learnRates, type LearnedRates, type TaughtRates } from '../wear/learnedRates.ts';
import type { PreparedUnit } from '../wear/unitPreparation.ts';
import { fleetAlarms, type FleetAlarms } from './alarmPopulations.ts';
import { inService } from './assembleFleet.ts';
import { assessmentOf, versionOfFit } from './assessmentOf.ts';
import type { UnitChance } from './failureEstimate.ts';
import { fleetCalls } from './fleetCalls.ts';
import type { FleetLearned, FleetTaught } from './fleetLearned.ts';
import { fleetOutlook } from './fleetOutlook.ts';
import { fleetSamplesOf } from './fleetSamples.ts';
import type { Models } from './models.ts';
import { promiseKeptOf } from './promiseKept.ts';
import { lineWithCall, unitLinesOf, type UnitLines } from './unitLines.ts';
import { viewByLearned } from './viewByLearned.ts';
import { unitWorker, type WorkedUnit } from './workedUnit.ts';

/**
 * A fleet worked through in parts that threads can share: each begins it from the same records; one learns the rates of
 * wear, another the outlook, then each makes the lines of its own units, and one puts them together.
 */
export interface FleetPass {
  readonly fleet: FleetHistory;
  readonly worked: readonly WorkedUnit[];
  /** of these, those in service, in the order of the lists */
  readonly active: readonly WorkedUnit[];
  readonly pooled: FleetTaught['pooled'];
  readonly alarms: FleetAlarms;
}

export function beginPass(fleet: FleetHistory, models: Models): FleetPass {
  const { coefficients, condemningLimits } = models;
  const asOfDay = dayFromIso(fleet.asOf);
  const pooled = poolDuty(fleet.units, coefficients, fleet.settings, asOfDay);
  const worked = fleet.units.map(unitWorker(pooled, models, fleet.settings, asOfDay));
  return {
    fleet,
    worked,
    active: worked.filter(({ history }) => inService(history, fleet.asOf)),
    pooled,
    alarms: fleetAlarms(worked, condemningLimits, coefficients),
  };
}

/** Rates that the wear of a fleet teaches; null for a fleet without units. */
export function ratesOf(
  worked: readonly WorkedUnit[],
  { coefficients, faultCodes }: Models,
): TaughtRates | null {
  if (worked.length === 0) return null;
  return learnRates(
    worked.map(({ timeline, history, fillOf }) => ({
      timeline,
      history,
      context: { fillOf, coefficients, faultCodes },
    })),
  );
}

/** What the failure model says of a fleet, without the model itself. Plain data. */
export interface PassOutlook {
  /** of the units in service, in their order */
  readonly chances: readonly UnitChance[];
  readonly expected: NonNullable<Assessment['expectedFailures']>;
  readonly fit: Pick<FleetFit, 'version' | 'messages'>;
  readonly shape: number;
  readonly summary: FitSummary;
}

/** @param horizonDays d */
export function passOutlook({ fleet, worked }: FleetPass, models: Models, horizonDays: number): PassOutlook {
  const { fit, forecast } = fleetOutlook(fleet, worked, models, horizonDays);
  return {
    chances: forecast.units,
    expected: forecast.expected,
    fit: { version: fit.version, messages: fit.messages },
    shape: fit.shape.value,
    summary: fitSummary(fit),
  };
}

/** What the parts of a pass learned, put together. */
export function taughtBy(
  { active, pooled, alarms }: FleetPass,
  rates: LearnedRates | null,
  { chances, shape, summary }: Pick<PassOutlook, 'chances' | 'shape' | 'summary'>,
  horizonDays: number,
): FleetTaught {
  return {
    horizonDays,
    pooled,
    rates,
    alarms,
    chances: new Map(active.map(({ history }, place) => [history.unit.source.id, chances[place]])),
    shape,
    ownFailures: summary.failures,
    ownDataShare: summary.ownDataShare,
  };
}

/**
 * The lines of some of the units in service.
 * @param wanted told the place of a unit among those in service
 * @param prepared what the wear models laid out of units already; used up
 */
export function passLines(
  { fleet, active }: FleetPass,
  taught: FleetTaught,
  models: Models,
  wanted: (place: number) => boolean,
  prepared: Map<UnitHistory, PreparedUnit | null> = new Map(),
): UnitLines[] {
  const asOfDay = dayFromIso(fleet.asOf);
  return active
    .filter((_, place) => wanted(place))
    .map((unit) => {
      const own = prepared.get(unit.history);
      prepared.delete(unit.history);
      const view = viewByLearned(unit, taught, models, fleet.settings, own);
      return unitLinesOf(view, fleet.settings, asOfDay, models.coefficients);
    });
}

/** All that is said of a fleet at once. */
export interface PassResult {
  readonly assessment: Assessment;
  readonly promise: PromiseKept;
  readonly samples: FleetSamples;
  readonly learned: FleetLearned;
  readonly fit: FitSummary;
}

/** @param lines of all units in service, in their order */
export function endPass(
  { fleet, active, alarms }: FleetPass,
  taught: FleetTaught,
  outlook: Omit<PassOutlook, 'chances'>,
  lines: readonly UnitLines[],
  { coefficients, condemningLimits }: Models,
): PassResult {
  const calls = fleetCalls(
    fleet,
    lines.map(({ called }) => called),
    coefficients,
  );
  const units = lines.map((line, place) => lineWithCall(line, calls[place]));
  const { fit, expected } = outlook;
  return {
    assessment: assessmentOf(fleet, units, fit, expected, taught.horizonDays, coefficients),
    promise: promiseKeptOf(
      lines.map(({ promise }) => promise),
      dayFromIso(fleet.asOf),
      coefficients,
    ),
    samples: fleetSamplesOf(
      lines.flatMap(({ samples }) => samples),
      { asOf: fleet.asOf, units: active.map(({ history }) => history), alarms },
      condemningLimits,
      coefficients,
    ),
    learned: {
      ...taught,
      modelVersion: versionOfFit(fit),
      calls: new Map(lines.map(({ unitId }, place) => [unitId, calls[place]])),
    },
    fit: outlook.summary,
  };
}
