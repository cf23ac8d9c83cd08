import { jobHours } from '../../models/assessment/jobHours.ts';
import { learnedHours, type LearnedRatio } from '../../models/assessment/learnedHours.ts';
import type { Actuals } from '../../models/schema/actualEndpoints.ts';
import type { Coefficients } from '../../models/schema/coefficient.ts';
import type { FleetHistory } from '../../models/schema/history.ts';
import type { Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { listVisits } from '../store/visits.ts';
import { standingFleet } from './fleetQuestion.ts';

/** Closed visits whose records stand; one may have been done ahead of its day. */
function closedVisits(store: Store): Visit[] {
  return listVisits(store, { state: 'done' }).filter(({ batchTakenBack }) => !batchTakenBack);
}

/** How long each kind of job takes in this shop's own bays, from its closed cards. */
export function learnedOf(
  store: Store,
  fleet: FleetHistory,
  coefficients: Coefficients,
): readonly LearnedRatio[] {
  const engines = new Map(fleet.units.map(({ unit, engine }) => [unit.unitNumber, engine]));
  return learnedHours(
    closedVisits(store).flatMap(({ unitNumber, jobs, place, actualHours }) =>
      place !== 'bay' || actualHours === null
        ? []
        : [
            {
              jobs: jobs.map((job) => ({
                job,
                hours: jobHours(
                  job,
                  engines.get(unitNumber) ?? null,
                  fleet.settings.oilServiceHours,
                  coefficients,
                ),
              })),
              setUpHours: coefficients['shop.set_up_hours'],
              actualHours,
            },
          ],
    ),
    coefficients,
  );
}

/** Planned against actual, newest first, with what later plans take from it. */
export async function actualsOf(context: Context, store: Store): Promise<Actuals> {
  const fleet = await standingFleet(context, store);
  return {
    asOf: fleet.asOf,
    currency: fleet.settings.currency,
    visits: closedVisits(store)
      .reverse()
      .map((visit) => ({
        visit: visit.id,
        unitNumber: visit.unitNumber,
        site: visit.site,
        on: visit.on,
        jobs: visit.jobs,
        plannedHours: visit.plannedHours,
        actualHours: visit.actualHours,
        plannedCents: visit.plannedCents,
        actualCents: visit.actualCents,
      })),
    learned: [...learnedOf(store, fleet, context.coefficients)],
  };
}
