import type { Express } from 'express';
import { planQuery, type PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import { namesSomeone } from '../../models/assessment/extensionApproval.ts';
import type { Context } from '../context.ts';
import { calendarText } from '../files/calendarFile.ts';
import { planCsv } from '../files/planCsv.ts';
import { suppliesCsv } from '../files/suppliesCsv.ts';
import { suppliesWorkbook } from '../files/suppliesWorkbook.ts';
import { changePlan, moveCostOf, PlanChanged, planOf, PlanRefused } from '../services/planBook.ts';
import { publishPlan } from '../services/planPublish.ts';
import { listFeeds, makeFeed, siteOfFeed } from '../store/calendarFeeds.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';

async function orRefused<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof PlanChanged) throw new Problem(409, 'changed_meanwhile', error.message);
    if (error instanceof PlanRefused) throw new Problem(409, 'not_possible', error.message);
    throw error;
  }
}

function named(by: string): string {
  if (!namesSomeone(by)) throw new Problem(422, 'no_name', `by must be the name of a person, got "${by}"`);
  return by;
}

const files = {
  ics: { type: 'text/calendar', name: 'shop-plan' },
  csv: { type: 'text/csv', name: 'shop-plan' },
} as const;

/** The shop plan, its changes, its files, and the private calendar addresses of sites. */
export function planRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'plan', async ({ query }) => planOf(context, await context.current(), query));
  serveEndpoint(app, 'planCostOfMove', async ({ body }) =>
    orRefused(moveCostOf(context, await context.current(), body, body.visitId, body.to)),
  );
  serveEndpoint(app, 'movePlanned', async ({ body: { visitId, to, stand, ...query } }) =>
    orRefused(changePlan(context, await context.current(), query, { kind: 'move', visitId, to }, stand)),
  );
  serveEndpoint(app, 'lockPlanned', async ({ body: { visitId, locked, stand, ...query } }) =>
    orRefused(
      changePlan(
        context,
        await context.current(),
        query,
        { kind: locked ? 'lock' : 'unlock', visitId },
        stand,
      ),
    ),
  );
  serveEndpoint(app, 'publishPlan', async ({ body }) =>
    orRefused(publishPlan(context, await context.current(), body, body.through, named(body.by), body.stand)),
  );
  serveEndpoint(app, 'planFeeds', async () => ({ feeds: listFeeds(await context.current()) }));
  serveEndpoint(app, 'makePlanFeed', async ({ body }) => {
    const store = await context.current();
    const { sites } = await planOf(context, store, planQuery.parse({}));
    if (!sites.some(({ site }) => site === body.site))
      throw new Problem(404, 'no_site', `There is no site ${body.site} with bays.`);
    const token = makeFeed(store, body.site, named(body.by), context.now());
    return { site: body.site, path: `/feeds/${token}.ics` };
  });
  const planAsked = async (asked: unknown): Promise<ShopPlan> => {
    const parsed = planQuery.safeParse(asked);
    if (!parsed.success) {
      const [issue] = parsed.error.issues;
      throw new Problem(400, 'bad_request', `query.${issue.path.join('.')}: ${issue.message}`);
    }
    const query: PlanQuery = parsed.data;
    return (await planOf(context, await context.current(), query)).plan;
  };
  for (const kind of ['ics', 'csv'] as const)
    app.get(`/api/plan.${kind}`, async (request, response) => {
      const plan = await planAsked(request.query);
      response
        .type(files[kind].type)
        .set('Content-Disposition', `attachment; filename="${files[kind].name}-${plan.from}.${kind}"`)
        .send(kind === 'ics' ? calendarText(plan, context.now()) : planCsv(plan));
    });
  for (const kind of ['csv', 'xlsx'] as const)
    app.get(`/api/plan/supplies.${kind}`, async (request, response) => {
      const plan = await planAsked(request.query);
      response
        .type(kind)
        .set('Content-Disposition', `attachment; filename="supplies-${plan.from}.${kind}"`)
        .send(kind === 'csv' ? suppliesCsv(plan) : suppliesWorkbook(plan));
    });
  app.get('/feeds/:token.ics', async (request, response) => {
    const store = await context.current();
    const site = siteOfFeed(store, request.params.token);
    if (site === null) throw new Problem(404, 'no_feed', 'There is no calendar at this address.');
    const { plan } = await planOf(context, store, planQuery.parse({ weeks: 13 }));
    response
      .type('text/calendar')
      .set('Cache-Control', 'private, no-store')
      .send(calendarText(plan, context.now(), site));
  });
}
