import type { Express } from 'express';
import { shopJobs, type ShopJob } from '../../models/schema/shopPlan.ts';
import type { Context } from '../context.ts';
import { closeCard, type CloseResult } from '../services/closeCard.ts';
import { visitCard } from '../services/visitCard.ts';
import { cardOfVisit } from '../store/visits.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';
import { visitOrProblem } from './shop.ts';
import { faultProblem, toldConflict } from './visitProblem.ts';

const noUnit = (unitNumber: string): Problem =>
  new Problem(404, 'no_unit', `There is no unit ${unitNumber} in service on that day.`);

function jobsOf(text: string): ShopJob[] {
  const names = text.split(',').map((name) => name.trim());
  const wrong = names.find((name) => !(shopJobs as readonly string[]).includes(name));
  if (wrong !== undefined)
    throw new Problem(
      400,
      'bad_request',
      `query.jobs: must be some of ${shopJobs.join(', ')}, got "${wrong}"`,
    );
  return names as ShopJob[];
}

function closed(result: CloseResult, unitNumber: string) {
  if ('noUnit' in result) throw noUnit(unitNumber);
  if ('faults' in result) throw faultProblem('card_open', result.faults);
  return result;
}

/** Job cards: read, and closed. */
export function cardRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'visitCard', async ({ params }) => {
    const store = await context.current();
    const visit = visitOrProblem(store, params.visit);
    const card = await visitCard(context, store, visit);
    if (card === null) throw noUnit(visit.unitNumber);
    return { visit, card, closed: cardOfVisit(store, visit.id) };
  });
  serveEndpoint(app, 'newCard', async ({ query }) => {
    const store = await context.current();
    const card = await visitCard(context, store, {
      unitNumber: query.unit,
      jobs: jobsOf(query.jobs),
      site: null,
      plannedHours: null,
    });
    if (card === null) throw noUnit(query.unit);
    return { card };
  });
  serveEndpoint(app, 'closeCard', async ({ params, body }) =>
    toldConflict(async () => {
      const store = await context.current();
      const visit = visitOrProblem(store, params.visit);
      const result = await closeCard(context, store, { visit, version: body.version }, body.closing);
      return closed(result, visit.unitNumber);
    }),
  );
  serveEndpoint(app, 'closeNewCard', async ({ body }) => {
    const store = await context.current();
    return closed(await closeCard(context, store, body, body.closing), body.unitNumber);
  });
}
