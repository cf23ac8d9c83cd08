import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory, UnitHistory } from '../schema/history.ts';
import { inService } from './assembleFleet.ts';
import type { FleetTaught } from './fleetLearned.ts';
import type { Models } from './models.ts';
import type { UnitView } from './unitView.ts';
import { viewByLearned } from './viewByLearned.ts';
import { unitWorker } from './workedUnit.ts';

/** Units in service on the fleet's day, in the order of its lists. */
export const activeUnits = (fleet: FleetHistory): readonly UnitHistory[] =>
  fleet.units.filter((history) => inService(history, fleet.asOf));

/**
 * The units in service one by one, each worked out by what the fleet taught when its turn comes: a fleet of any size takes
 * the room of its records and of one unit.
 * @throws as `viewByLearned`
 */
export function* unitViews(fleet: FleetHistory, taught: FleetTaught, models: Models): Iterable<UnitView> {
  const work = unitWorker(taught.pooled, models, fleet.settings, dayFromIso(fleet.asOf));
  for (const history of activeUnits(fleet))
    yield viewByLearned(work(history), taught, models, fleet.settings);
}
