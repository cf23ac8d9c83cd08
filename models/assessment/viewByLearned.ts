import type { Settings } from '../schema/settings.ts';
import { statesByRates } from '../wear/fleetStates.ts';
import type { PreparedUnit } from '../wear/unitPreparation.ts';
import { viewUnit } from './assessUnit.ts';
import { failureEstimateOf } from './failureEstimate.ts';
import type { FleetTaught } from './fleetLearned.ts';
import type { Models } from './models.ts';
import { callMoneySetting } from './renewalPays.ts';
import type { UnitView } from './unitView.ts';
import type { WorkedUnit } from './workedUnit.ts';

const notAssessed = 'this unit came after the fleet was last worked through';

/**
 * Works one unit of a fleet through by what the fleet taught, from the unit's own records.
 * @param prepared what the wear models laid out of this unit already
 * @throws RangeError when the fleet taught nothing, which only one without units does
 */
export function viewByLearned(
  unit: WorkedUnit,
  learned: FleetTaught,
  models: Models,
  settings: Settings,
  prepared?: PreparedUnit | null,
): UnitView {
  const { history, timeline, fillOf, readFill } = unit;
  const { coefficients, faultCodes, oilCatalog, condemningLimits } = models;
  if (learned.rates === null)
    throw new RangeError('learned: rates are needed, got those of a fleet without units');
  const context = { fillOf, coefficients, faultCodes };
  const states = statesByRates({ timeline, history, context }, learned.rates, prepared);
  const chance = learned.chances.get(history.unit.source.id);
  return viewUnit({
    history,
    timeline,
    states,
    fillOf,
    oilCatalog,
    readFill,
    limits: condemningLimits,
    alarms: learned.alarms,
    failure: chance === undefined ? null : failureEstimateOf(chance, states, history, coefficients),
    failureReason: chance === undefined ? notAssessed : null,
    money: callMoneySetting(learned.horizonDays, learned.shape),
    coefficients,
    settings,
  });
}
