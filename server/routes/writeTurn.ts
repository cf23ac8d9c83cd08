import { setTimeout as wait } from 'node:timers/promises';
import type { RequestHandler } from 'express';
import { endpoints } from '../../models/schema/endpoints.ts';
import type { Context } from '../context.ts';
import { canWrite } from '../store/openStore.ts';
import { Problem } from './problem.ts';

/** How long a write waits for those before it, ms; an intake of a million rows takes less. */
const usualPatienceMs = 120_000;
/** How often another program that writes is asked whether it is done, ms. */
const askEveryMs = 100;

const words =
  'An intake is writing the records, and this change has waited long for it. Nothing of it was kept: try again when the intake is done.';

/** Requests that write nothing, or that must not wait. */
const apart = [endpoints.upload, endpoints.cancelIntake, endpoints.planCostOfMove].map(
  ({ path }) => new RegExp(`^${path.replace(/:\w+/g, '[^/]+')}$`),
);

/** Lets writes in one by one, and only while no other program writes: reads are answered meanwhile. */
export function writeTurn(context: Context, patienceMs = usualPatienceMs): RequestHandler {
  return async (request, response, next) => {
    const isRead = request.method === 'GET' || request.method === 'HEAD';
    if (isRead || !request.path.startsWith('/api/') || apart.some((path) => path.test(request.path))) {
      next();
      return;
    }
    const until = Date.now() + patienceMs;
    const end = await context.writes.take(patienceMs);
    if (end === null) throw new Problem(503, 'busy', words);
    if (response.closed) {
      end();
      return;
    }
    response.on('close', end);
    const store = await context.current();
    while (!canWrite(store)) {
      if (Date.now() > until || response.closed) throw new Problem(503, 'busy', words);
      await wait(askEveryMs);
    }
    next();
  };
}
