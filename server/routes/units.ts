import type { Express } from 'express';
import type { Context } from '../context.ts';
import { historyOf } from '../services/unitRecords.ts';
import { unitsInService } from '../store/unitLookup.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';

/** Look-up and history of units: from the records alone, without working the fleet through. */
export function unitRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'find', async () => {
    const store = await context.current();
    const asOf = await context.asOf(store);
    return { asOf, units: unitsInService(store, asOf) };
  });
  serveEndpoint(app, 'unitHistory', async ({ params, query }) => {
    const history = await historyOf(context, await context.current(), params.unitNumber, query.asOf);
    if (history === null)
      throw new Problem(404, 'no_unit', `There is no unit ${params.unitNumber} on record on that day.`);
    return history;
  });
}
