import type { FleetLearned } from '../../models/assessment/fleetLearned.ts';
import type { UnitView } from '../../models/assessment/unitView.ts';
import { unitViews } from '../../models/assessment/unitViews.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import type { Store } from '../store/openStore.ts';
import { learnedOf, workedBefore } from './assessStore.ts';
import { fleetOn, questionOf } from './fleetQuestion.ts';

/** A fleet, what it taught, and its units in service. */
export interface FleetUnits {
  readonly fleet: FleetHistory;
  readonly learned: FleetLearned;
  /** the units one by one, in the order of the lists; those of a large fleet are worked out as their turn comes */
  readonly views: () => Iterable<UnitView>;
}

/** The units of a store's fleet as its assessment sees them; the fleet is worked through where it was not before. */
export async function fleetUnits(
  context: Context,
  store: Store,
  asOf?: string,
  horizonDays?: number,
): Promise<FleetUnits> {
  const question = await questionOf(context, store, asOf, horizonDays);
  const learned = await learnedOf(context, store, question);
  const inMemory = workedBefore(question);
  if (inMemory !== null) return { fleet: inMemory.fleet, learned, views: () => inMemory.view.views.values() };
  const fleet = fleetOn(store, question);
  return {
    fleet,
    learned,
    views: () => (learned.rates === null ? [] : unitViews(fleet, learned, fleetModels(context.coefficients))),
  };
}
