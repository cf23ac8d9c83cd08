import type { Express } from 'express';
import type { Context } from '../context.ts';
import { decideHeld } from '../services/decideHeld.ts';
import { findRecord } from '../store/findRecord.ts';
import { anyDecided, groupHeld, listHeld } from '../store/heldRows.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';

/** Rows that wait for a decision, and the record behind any number. */
export function heldRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'held', async ({ query }) => {
    const store = await context.current();
    const { rows, next } = listHeld(store, {
      code: query.code,
      state: query.state,
      after: Number(query.cursor ?? 0),
      limit: query.limit ?? 200,
    });
    return { rows, next, groups: groupHeld(store), anyDecided: anyDecided(store) };
  });
  serveEndpoint(app, 'decideHeld', async ({ body }) =>
    decideHeld((await context.current()).file, body, {
      by: body.by ?? 'web',
      at: context.now(),
      today: context.today(),
    }),
  );
  serveEndpoint(app, 'record', async ({ params }) => {
    const record = findRecord(await context.current(), params.kind, Number(params.id));
    if (record === null)
      throw new Problem(404, 'no_record', `There is no record ${params.id} of kind ${params.kind}.`);
    return record;
  });
}
