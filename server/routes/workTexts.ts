import type { Express } from 'express';
import type { Context } from '../context.ts';
import { forgetWorkText, teachWorkText, workTextsOf } from '../services/workTexts.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';

/** Work texts: those not understood, teaching one, taking that back. */
export function workTextRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'workTexts', async ({ query }) => workTextsOf(await context.current(), query.limit));
  serveEndpoint(app, 'teachWorkText', async ({ body }) => {
    const { text, works, by } = body;
    const rows = await teachWorkText((await context.current()).file, {
      text,
      works,
      by: by ?? 'web',
      at: context.now(),
      today: context.today(),
    });
    return { text, works, rows };
  });
  serveEndpoint(app, 'forgetWorkText', async ({ body }) => {
    const rows = await forgetWorkText((await context.current()).file, body.text, context.today());
    if (rows === null) throw new Problem(404, 'not_taught', `"${body.text}" was not taught.`);
    return { text: body.text, rows };
  });
}
