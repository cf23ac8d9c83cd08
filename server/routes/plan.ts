import type { Express } from 'express';
import { planQuery, type PlanAnswer, type PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import type { Context } from '../context.ts';
import { calendarText } from '../files/calendarFile.ts';
import { planCsv } from '../files/planCsv.ts';
import { suppliesCsv } from '../files/suppliesCsv.ts';
import { suppliesWorkbook } from '../files/suppliesWorkbook.ts';
import type { Background } from '../services/background.ts';
import { changePlan, moveCostOf, PlanRefused } from '../services/planBook.ts';
import { PlanChanged } from '../services/planKey.ts';
import { publishPlan } from '../services/planPublish.ts';
import { readPlan, readyPlan } from '../services/planReady.ts';
import { workState } from '../services/reading.ts';
import { listFeeds, makeFeed, siteOfFeed } from '../store/calendarFeeds.ts';
import type { Store } from '../store/openStore.ts';
import { serveEndpoint } from './endpoint.ts';
import { named } from './named.ts';
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

const files = {
  ics: { type: 'text/calendar', name: 'shop-plan' },
  csv: { type: 'text/csv', name: 'shop-plan' },
} as const;

/** The shop plan, its changes, its files, and the private calendar addresses of sites. */
export function planRoutes(app: Express, context: Context, background: Background): void {
  /** The store that is shown, once the plan that is asked for is there. */
  const planned = async (query: PlanQuery, seen?: string): Promise<Store> => {
    const store = await context.current();
    await readyPlan(context, background, store, query, seen);
    return store;
  };
  const planOf = async (query: PlanQuery): Promise<PlanAnswer> =>
    readyPlan(context, background, await context.current(), query);
  serveEndpoint(app, 'plan', ({ query }) => planOf(query));
  serveEndpoint(app, 'planWork', async ({ query }) => {
    const store = await context.current();
    return workState(() => readPlan(context, background, store, query));
  });
  serveEndpoint(app, 'planCostOfMove', async ({ body }) =>
    orRefused(planned(body).then((store) => moveCostOf(context, store, body, body.visitId, body.to))),
  );
  const change = (
    { stand, ...query }: PlanQuery & { stand?: string },
    what: Parameters<typeof changePlan>[3],
  ): Promise<PlanAnswer> =>
    orRefused(planned(query, stand).then((store) => changePlan(context, store, query, what, stand)));
  serveEndpoint(app, 'movePlanned', ({ body: { visitId, to, ...query } }) =>
    change(query, { kind: 'move', visitId, to }),
  );
  serveEndpoint(app, 'lockPlanned', ({ body: { visitId, locked, ...query } }) =>
    change(query, { kind: locked ? 'lock' : 'unlock', visitId }),
  );
  serveEndpoint(app, 'publishPlan', async ({ body }) => {
    const by = named(body.by);
    return orRefused(
      planned(body, body.stand).then((store) =>
        publishPlan(context, store, body, body.through, by, body.stand),
      ),
    );
  });
  serveEndpoint(app, 'planFeeds', async () => ({ feeds: listFeeds(await context.current()) }));
  serveEndpoint(app, 'makePlanFeed', async ({ body }) => {
    const store = await context.current();
    const { sites } = await planOf(planQuery.parse({}));
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
    return (await planOf(parsed.data)).plan;
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
    const { plan } = await planOf(planQuery.parse({ weeks: 13 }));
    response
      .type('text/calendar')
      .set('Cache-Control', 'private, no-store')
      .send(calendarText(plan, context.now(), site));
  });
}
