import { poolDuty } from '../oil/dutyPool.ts';
import type { Assessment } from '../schema/assessment.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory } from '../schema/history.ts';
import { learnRates, type TaughtRates } from '../wear/learnedRates.ts';
import { fleetAlarms } from './alarmPopulations.ts';
import { inService } from './assembleFleet.ts';
import { assessmentOf, versionOfFit } from './assessmentOf.ts';
import { unitAssessmentOf } from './assessUnit.ts';
import { calledUnitOf, fleetCalls } from './fleetCalls.ts';
import type { FleetLearned, FleetTaught } from './fleetLearned.ts';
import { fleetOutlook, type FleetOutlook } from './fleetOutlook.ts';
import type { Models } from './models.ts';
import type { UnitView } from './unitView.ts';
import { viewByLearned } from './viewByLearned.ts';
import { unitWorker, type WorkedUnit } from './workedUnit.ts';

/** A fleet worked through: the document, what each unit's page is made from, and what the fleet taught. */
export interface FleetView extends FleetOutlook {
  readonly assessment: Assessment;
  readonly views: ReadonlyMap<string, UnitView>;
  readonly learned: FleetLearned;
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

/**
 * Assesses a fleet from what was known on a day: duty, oil, wear, chance of failure, call, for every unit in service.
 * The same records give the same document, whatever their order.
 * @param horizonDays horizon of the chance of failure, d
 */
export function assessFleet(fleet: FleetHistory, models: Models, horizonDays: number): FleetView {
  const { coefficients } = models;
  const { settings } = fleet;
  const asOfDay = dayFromIso(fleet.asOf);
  const pooled = poolDuty(fleet.units, coefficients, settings, asOfDay);
  const worked = fleet.units.map(unitWorker(pooled, models, settings, asOfDay));
  const rates = ratesOf(worked, models);
  const outlook = fleetOutlook(fleet, worked, models, horizonDays);
  const { fit, forecast } = outlook;
  const active = worked.filter(({ history }) => inService(history, fleet.asOf));
  const taught: FleetTaught = {
    horizonDays,
    pooled,
    rates: rates?.rates ?? null,
    alarms: fleetAlarms(worked, models.condemningLimits, coefficients),
    chances: new Map(active.map(({ history }, index) => [history.unit.source.id, forecast.units[index]])),
    shape: fit.shape.value,
  };
  const views = active.map((unit) => {
    const own = rates?.prepared.get(unit.history);
    rates?.prepared.delete(unit.history);
    return viewByLearned(unit, taught, models, settings, own);
  });
  const called = fleetCalls(
    fleet,
    views.map((view) => calledUnitOf(view, settings)),
    coefficients,
  );
  const units = views.map((view, index) => unitAssessmentOf(view, called[index]));
  return {
    ...outlook,
    assessment: assessmentOf(fleet, units, fit, forecast.expected, horizonDays, coefficients),
    views: new Map(views.map((view) => [view.history.unit.unitNumber, view])),
    learned: {
      ...taught,
      modelVersion: versionOfFit(fit),
      calls: new Map(views.map(({ history }, index) => [history.unit.source.id, called[index]])),
    },
  };
}
