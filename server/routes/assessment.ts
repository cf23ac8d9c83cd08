import type { Express } from 'express';
import type { Context } from '../context.ts';
import { movesDays } from '../services/fleetAnswers.ts';
import { unitInputs, unitNow, unitStoryOf } from '../services/unitNow.ts';
import { markFormer, serveEndpoint, serveFleet } from './endpoint.ts';
import { noUnitInService } from './problem.ts';

/** Estimates and calls, for the fleet and for one unit. */
export function assessmentRoutes(app: Express, context: Context): void {
  serveFleet(app, context, 'assessment', ({ query }) => ({ name: 'assessment', ...query }));
  serveFleet(app, context, 'fleetList', ({ query }) => ({ name: 'list', ...query }));
  serveFleet(app, context, 'moves', ({ query: { days = movesDays } }) => ({
    name: 'moves',
    ...(days === movesDays ? {} : { more: { days } }),
  }));
  serveFleet(app, context, 'promise', ({ query }) => ({ name: 'promise', ...query }));
  serveFleet(app, context, 'rollups', ({ query }) => ({ name: 'rollups', ...query }));
  serveFleet(app, context, 'samples', ({ query }) => ({ name: 'samples', ...query }));
  serveEndpoint(app, 'unit', async ({ params, query }, response) => {
    const own = await unitNow(
      context,
      await context.current(),
      params.unitNumber,
      query.asOf,
      query.horizonDays,
    );
    if (own === null) throw noUnitInService(params.unitNumber);
    markFormer(response, own.formerOf);
    return unitStoryOf(context, own);
  });
  serveEndpoint(app, 'whatIf', async ({ params, query }) => {
    const own = await unitNow(context, await context.current(), params.unitNumber, query.asOf);
    if (own === null) throw noUnitInService(params.unitNumber);
    return unitInputs(context, own);
  });
}
