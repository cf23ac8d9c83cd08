import type { Request, RequestHandler, Response } from 'express';
import { endpoints } from '../../models/schema/endpoints.ts';
import type { Context } from '../context.ts';
import { untilWritable } from '../services/writeTurns.ts';
import { Problem } from './problem.ts';
import { whenAnswered } from './whenAnswered.ts';

const words =
  'Records are being written, such as by an intake, and this change has waited long for it. Nothing of it was kept: try again when that is done.';

/** Requests that write nothing, or that must not wait. */
const apart = [endpoints.upload, endpoints.cancelIntake, endpoints.planCostOfMove].map(
  ({ path }) => new RegExp(`^${path.replace(/:\w+/g, '[^/]+')}$`),
);

/** Whether a request changes something that is kept. */
export function changesRecords({ method, path }: Request): boolean {
  if (method === 'GET' || method === 'HEAD' || !path.startsWith('/api/')) return false;
  return !apart.some((form) => form.test(path));
}

const begun = new WeakSet<Response>();

/** Whether the work on a change has begun: before, it can still be left when nobody waits for it. */
export const hasBegun = (response: Response): boolean => begun.has(response);

/** Lets writes in one by one, and only while no other program writes: reads are answered meanwhile. */
export function writeTurn(context: Context): RequestHandler {
  return async (request, response, next) => {
    if (!changesRecords(request)) {
      next();
      return;
    }
    const { patienceMs } = context.writes;
    const until = Date.now() + patienceMs;
    const end = await context.writes.take(patienceMs);
    if (end === null) throw new Problem(503, 'busy', words);
    whenAnswered(response, end);
    const isGone = (): boolean => response.closed;
    const store = await context.current();
    const isFree = !isGone() && (await untilWritable(store, until, isGone));
    if (isGone()) {
      response.end();
      return;
    }
    if (!isFree) throw new Problem(503, 'busy', words);
    begun.add(response);
    next();
  };
}
