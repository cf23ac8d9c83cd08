import type { RequestHandler } from 'express';
import type { Context } from '../context.ts';
import { findAnswer, keepAnswer } from '../store/answeredRequests.ts';
import { Problem } from './problem.ts';

/**
 * A write that comes again with the same Idempotency-Key gets the first answer again. Answers are kept in the store
 * that was current when they were given.
 */
export function idempotency(context: Context, log: (line: string) => void): RequestHandler {
  const running = new Set<string>();
  return async (request, response, next) => {
    const key = request.get('Idempotency-Key');
    // an intake is called off while it writes: nothing else can be written then, and twice is as good as once
    const isCancel = /^\/api\/intake\/jobs\/[^/]+\/cancel$/.test(request.path);
    if (key === undefined || request.method === 'GET' || request.path === '/api/uploads' || isCancel) {
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
    running.add(key);
    response.on('close', () => running.delete(key));
    const json = response.json.bind(response);
    response.json = (body: unknown) => {
      const text = JSON.stringify(body);
      void context
        .current()
        .then((store) =>
          keepAnswer(store, { key, route, status: response.statusCode, body: text, at: context.now() }),
        )
        // what was done stands, also where the store is busy and the answer can not be kept
        .catch((error: unknown) => log(`${route}: its answer is not kept: ${String(error)}`))
        .then(() => json(body));
      return response;
    };
    next();
  };
}
