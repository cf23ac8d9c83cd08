import type { Assessment } from '../schema/assessment.ts';
import { fitSummary } from '../reliability/fleet/fitSummary.ts';
import type { FleetHistory } from '../schema/history.ts';
import { assessmentOf, versionOfFit } from './assessmentOf.ts';
import { unitAssessmentOf } from './assessUnit.ts';
import { calledUnitOf, fleetCalls } from './fleetCalls.ts';
import type { FleetLearned } from './fleetLearned.ts';
import { fleetOutlook, type FleetOutlook } from './fleetOutlook.ts';
import { beginPass, ratesOf, taughtBy } from './fleetPass.ts';
import type { Models } from './models.ts';
import type { UnitView } from './unitView.ts';
import { viewByLearned } from './viewByLearned.ts';

/** A fleet worked through: the document, what each unit's page is made from, and what the fleet taught. */
export interface FleetView extends FleetOutlook {
  readonly assessment: Assessment;
  readonly views: ReadonlyMap<string, UnitView>;
  readonly learned: FleetLearned;
}

/**
 * Assesses a fleet from what was known on a day: duty, oil, wear, chance of failure, call, for every unit in service.
 * The same records give the same document, whatever their order.
 * @param horizonDays horizon of the chance of failure, d
 */
export function assessFleet(fleet: FleetHistory, models: Models, horizonDays: number): FleetView {
  const { coefficients } = models;
  const { settings } = fleet;
  const pass = beginPass(fleet, models);
  const rates = ratesOf(pass.worked, models);
  const outlook = fleetOutlook(fleet, pass.worked, models, horizonDays);
  const { fit, forecast } = outlook;
  const told = { chances: forecast.units, shape: fit.shape.value, summary: fitSummary(fit) };
  const taught = taughtBy(pass, rates?.rates ?? null, told, horizonDays);
  const views = pass.active.map((unit) => {
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
