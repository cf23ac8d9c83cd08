import type { Express } from 'express';
import { nextStates, putOffsBeforeManager } from '../../models/cards/visitMoves.ts';
import { namesSomeone } from '../../models/assessment/extensionApproval.ts';
import type { Visit } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import { oilLog } from '../services/oilLog.ts';
import { askVisit, riskOfPuttingOff, stepVisit } from '../services/visitSteps.ts';
import { addOilEntry } from '../store/oilEntries.ts';
import type { Store } from '../store/openStore.ts';
import { UndoRefused, undoVisitMove } from '../store/undoVisit.ts';
import { findVisit, listVisits, movesOfVisit } from '../store/visits.ts';
import { serveEndpoint } from './endpoint.ts';
import { shopRecordRoutes } from './shopRecords.ts';
import { Problem } from './problem.ts';
import { faultProblem, toldConflict } from './visitProblem.ts';

/** The visit of an address. @throws Problem 404 when there is none */
export function visitOrProblem(store: Store, id: string): Visit {
  const visit = /^\d{1,15}$/.test(id) ? findVisit(store, Number(id)) : null;
  if (visit === null) throw new Problem(404, 'no_visit', `There is no visit ${id}.`);
  return visit;
}

/** Visits with their states, shop records, and the log of used and bulk oil. */
export function shopRoutes(app: Express, context: Context): void {
  shopRecordRoutes(app, context);
  const answer = (store: Store, visit: Visit) => ({ visit, moves: movesOfVisit(store, visit.id) });
  serveEndpoint(app, 'visits', async ({ query }) => {
    const store = await context.current();
    return { asOf: await context.asOf(store), visits: listVisits(store, query) };
  });
  serveEndpoint(app, 'visit', async ({ params }) => {
    const store = await context.current();
    const visit = visitOrProblem(store, params.visit);
    return { ...answer(store, visit), nextStates: [...nextStates(visit.state)] };
  });
  serveEndpoint(app, 'askVisit', async ({ body }) => {
    const store = await context.current();
    const visit = await askVisit(context, store, body);
    if (visit === null)
      throw new Problem(404, 'no_unit', `There is no unit ${body.unitNumber} in service on that day.`);
    return answer(store, visit);
  });
  serveEndpoint(app, 'stepVisit', async ({ params, body }) =>
    toldConflict(async () => {
      const store = await context.current();
      const result = await stepVisit(context, store, visitOrProblem(store, params.visit), body);
      if ('faults' in result) throw faultProblem('not_possible', result.faults);
      return answer(store, result.visit);
    }),
  );
  serveEndpoint(app, 'undoVisit', async ({ params, body }) =>
    toldConflict(async () => {
      const store = await context.current();
      const visit = visitOrProblem(store, params.visit);
      try {
        const after = undoVisitMove(store, { id: visit.id, version: body.version }, body.by, context.now());
        return answer(store, after ?? { ...visit, version: body.version + 1 });
      } catch (error) {
        if (error instanceof UndoRefused) throw new Problem(409, 'cannot_undo', error.message);
        throw error;
      }
    }),
  );
  serveEndpoint(app, 'putOffRisk', async ({ params, query }) => {
    const store = await context.current();
    const visit = visitOrProblem(store, params.visit);
    return {
      words: await riskOfPuttingOff(context, store, visit, query.to),
      managerNeeded: visit.timesPutOff >= putOffsBeforeManager,
    };
  });
  serveEndpoint(app, 'oilLog', async ({ query }) => {
    const store = await context.current();
    return { asOf: await context.asOf(store), ...oilLog(store, query.site ?? null) };
  });
  serveEndpoint(app, 'addOil', async ({ body }) => {
    const store = await context.current();
    const on = body.on ?? (await context.asOf(store));
    if (!namesSomeone(body.who))
      throw new Problem(422, 'no_name', `who must be the name of a person or a firm, got "${body.who}"`);
    if (body.kind === 'bulk_drawn' && body.grade === null)
      throw new Problem(422, 'no_grade', 'grade must be named for bulk oil');
    return addOilEntry(store, { ...body, on, visitId: null }, context.now());
  });
}
