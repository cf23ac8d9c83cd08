import type { Express } from 'express';
import type { Context } from '../context.ts';
import {
  assessStore,
  fleetListText,
  movesOf,
  promiseText,
  rollupsOf,
  samplesOf,
  unitInputs,
  unitStoryOf,
} from '../services/assessStore.ts';
import { serveEndpoint, serveText } from './endpoint.ts';
import { Problem } from './problem.ts';

/** Estimates and calls, for the fleet and for one unit. */
export function assessmentRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'assessment', async ({ query }) =>
    assessStore(context, await context.current(), query.asOf, query.horizonDays),
  );
  serveText(app, 'fleetList', async ({ query }) =>
    fleetListText(context, await context.current(), query.asOf, query.horizonDays),
  );
  serveEndpoint(app, 'moves', async ({ query }) =>
    movesOf(context, await context.current(), query.days ?? 7),
  );
  serveText(app, 'promise', async ({ query }) => promiseText(context, await context.current(), query.asOf));
  serveEndpoint(app, 'rollups', async ({ query }) =>
    rollupsOf(context, await context.current(), query.asOf, query.horizonDays),
  );
  serveEndpoint(app, 'samples', async ({ query }) =>
    samplesOf(context, await context.current(), query.asOf, query.horizonDays),
  );
  serveEndpoint(app, 'unit', async ({ params, query }) => {
    const story = await unitStoryOf(
      context,
      await context.current(),
      params.unitNumber,
      query.asOf,
      query.horizonDays,
    );
    if (story === null)
      throw new Problem(404, 'no_unit', `There is no unit ${params.unitNumber} in service on that day.`);
    return story;
  });
  serveEndpoint(app, 'whatIf', async ({ params, query }) => {
    const inputs = await unitInputs(context, await context.current(), params.unitNumber, query.asOf);
    if (inputs === null)
      throw new Problem(404, 'no_unit', `There is no unit ${params.unitNumber} in service on that day.`);
    return inputs;
  });
}
