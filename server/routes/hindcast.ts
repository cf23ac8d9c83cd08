import type { Express } from 'express';
import type { Context } from '../context.ts';
import type { Background } from '../services/background.ts';
import { hindcastQuestion, keptHindcast } from '../services/hindcastStore.ts';
import { fitVersions } from '../store/fitVersions.ts';
import { serveEndpoint } from './endpoint.ts';

/** A short question is answered at once; a long one is worked on while the page asks again. */
const patienceMs = 1500;

/** What was said and what happened, and the versions of the failure model. */
export function hindcastRoutes(app: Express, context: Context, background: Background): void {
  app.use('/api', (request, response, next) => {
    // a record or decision may have changed what the fleet teaches
    if (request.method !== 'GET')
      response.on('finish', () => {
        if (response.statusCode < 300) void background.refit().catch(() => undefined);
      });
    next();
  });
  serveEndpoint(app, 'hindcast', async ({ query }) => {
    const store = await context.current();
    const request = { origins: query.origins?.split(','), horizonDays: query.horizonDays };
    const question = await hindcastQuestion(context, store, request);
    if ('refused' in question)
      return {
        state: 'refused',
        reason: question.refused,
        done: 0,
        total: 0,
        origins: [],
        horizonDays: question.horizonDays,
        result: null,
      };
    const { key, horizonDays } = question;
    const origins = [...question.origins];
    const answer = { origins, horizonDays, total: origins.length };
    let result = keptHindcast(store, key);
    if (result === null) {
      const task = background.start(
        key,
        { kind: 'hindcast', request: { origins, horizonDays } },
        origins.length,
      );
      await Promise.race([task.finished, new Promise((resolve) => setTimeout(resolve, patienceMs))]);
      result = keptHindcast(store, key);
      if (result === null)
        return {
          ...answer,
          state: task.failed === null ? ('working' as const) : ('failed' as const),
          reason: task.failed,
          done: task.done,
          result: null,
        };
    }
    return { ...answer, state: 'ready', reason: null, done: origins.length, result };
  });
  serveEndpoint(app, 'fitVersions', async ({ query }) => ({
    versions: fitVersions(await context.current(), query.limit ?? 10),
  }));
}
