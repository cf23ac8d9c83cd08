import { dueAsked } from '../../models/assessment/dueWorkAsked.ts';
import { asItTakes } from '../../models/assessment/planInputs.ts';
import type { DueJob, ShopInputs } from '../../models/decisions/shop/shopInputs.ts';
import type { Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import type { Store } from '../store/openStore.ts';
import { learnedOf } from './actuals.ts';
import { standingFleet } from './fleetQuestion.ts';

/** Jobs of open visits that nothing else makes due, with the hours that the shop takes for them. */
export async function askedJobs(
  context: Context,
  store: Store,
  plain: ShopInputs,
  visits: readonly Visit[],
): Promise<DueJob[]> {
  if (visits.every(({ state }) => state === 'done')) return [];
  const { coefficients } = context;
  const fleet = await standingFleet(context, store);
  const engines = new Map(fleet.units.map(({ unit, engine }) => [unit.unitNumber, engine]));
  const known = new Set(plain.units.map(({ unitNumber }) => unitNumber));
  const learned = learnedOf(store, fleet, coefficients);
  return dueAsked(
    visits,
    plain.jobs,
    (unitNumber) => engines.get(unitNumber) ?? null,
    (unitNumber) => known.has(unitNumber),
    {
      asOfDay: plain.asOfDay,
      endDay: plain.fromDay + 7 * plain.weeks - 1,
      oilServiceHours: fleet.settings.oilServiceHours,
      faultCodes: fleetModels(coefficients).faultCodes,
      coefficients,
    },
  ).map((job) => asItTakes(job, learned));
}
