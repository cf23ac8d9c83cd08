import type { RequestHandler, Response } from 'express';
import type { Context } from '../context.ts';
import { untilWritable } from '../services/writeTurns.ts';
import { findAnswer, keepAnswer, type Answer } from '../store/answeredRequests.ts';
import { Problem } from './problem.ts';
import { whenAnswered } from './whenAnswered.ts';
import { changesRecords, hasBegun } from './writeTurn.ts';

/**
 * A write that comes again with the same Idempotency-Key gets the first answer again, also when its client went away while
 * it was worked on. Answers are kept in the store that was current when they were given.
 */
export function idempotency(context: Context, log: (line: string) => void): RequestHandler {
  const running = new Map<string, Response>();
  const keep = async (answer: Answer): Promise<void> => {
    const store = await context.current();
    // another program may have begun to write since the change was made
    await untilWritable(store, Date.now() + context.writes.patienceMs);
    await keepAnswer(store, answer);
  };
  return async (request, response, next) => {
    const key = request.get('Idempotency-Key');
    // calling an intake off must not wait for it, and twice is as good as once
    if (key === undefined || !changesRecords(request)) {
      next();
      return;
    }
    if (key.length === 0 || key.length > 200)
      throw new Problem(400, 'bad_request', 'Idempotency-Key: must have 1 to 200 characters');
    const route = `${request.method} ${request.originalUrl}`;
    const earlier = await findAnswer(await context.current(), key);
    if (earlier !== null) {
      if (earlier.route !== route)
        throw new Problem(
          422,
          'key_reused',
          `Idempotency-Key: "${key}" was used for ${earlier.route} before`,
        );
      response.status(earlier.status).type('application/json').send(earlier.body);
      return;
    }
    if (running.has(key))
      throw new Problem(409, 'still_running', 'The same request is still being worked on.');
    running.set(key, response);
    const leave = (): void => {
      if (running.get(key) === response) running.delete(key);
    };
    whenAnswered(response, leave);
    // one that still waits for its turn is left; one whose work has begun is the only one with its key until it is done
    response.on('close', () => {
      if (!hasBegun(response)) leave();
    });
    const json = response.json.bind(response);
    response.json = (body: unknown) => {
      const text = JSON.stringify(body);
      void keep({ key, route, status: response.statusCode, body: text, at: context.now() })
        // what was done stands, also where the store is busy and the answer can not be kept
        .catch((error: unknown) => log(`${route}: its answer is not kept: ${String(error)}`))
        .then(() => json(body));
      return response;
    };
    next();
  };
}
