import type { Express } from 'express';
import type { z } from 'zod';
import { budgetAssumptions, type BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { budgetQuery } from '../../models/schema/moneyEndpoints.ts';
import type { PolicyTrialDocument } from '../../models/schema/policyTrial.ts';
import type { Context } from '../context.ts';
import { budgetPdf } from '../files/budgetPdf.ts';
import { budgetWorkbook } from '../files/budgetWorkbook.ts';
import type { Background } from '../services/background.ts';
import {
  budgetKey,
  budgetSteps,
  keptBudget,
  usualDraws,
  usualSeed,
  type BudgetRequest,
} from '../services/moneyCase.ts';
import { adoptPolicy, withdrawPolicy } from '../services/adoptPolicy.ts';
import { askFleet } from '../services/askFleet.ts';
import { wholeAnswer, workState, type Reading } from '../services/reading.ts';
import { serveEndpoint, serveFleet } from './endpoint.ts';
import { Problem } from './problem.ts';

const listed = (text: string | undefined): string[] =>
  (text ?? '')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** The question that an address asks; money to whole cents. */
export function questionOf(query: z.infer<typeof budgetQuery>): BudgetRequest {
  return {
    amountCents: Math.round(100 * query.amount),
    months: query.months,
    seed: query.seed ?? usualSeed,
    draws: usualDraws,
    mustDo: listed(query.mustDo),
    mustNot: listed(query.mustNot),
    hoursPerYear: query.hoursPerYear ?? null,
    assumed: budgetAssumptions.parse(query),
    ...(query.asOf === undefined ? {} : { asOf: query.asOf }),
  };
}

/** The case of a question, or the work on it, off the request thread; a list that names a unit which is not there is the asker's to mend. */
async function readBudget(
  context: Context,
  background: Background,
  query: z.infer<typeof budgetQuery>,
): Promise<Reading<BudgetDocument>> {
  const store = await context.current();
  const request = questionOf(query);
  const key = await budgetKey(context, store, request);
  const kept = keptBudget(store, key);
  if (kept === null) return { task: background.start(key, { kind: 'budget', request }, budgetSteps) };
  if ('refused' in kept) throw new Problem(422, 'no_unit', `${kept.refused}.`);
  return { answer: kept.document };
}

/** Report and workbook of the same question, as files to keep. */
const files = {
  pdf: { type: 'application/pdf', make: budgetPdf },
  xlsx: {
    type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    make: (data: BudgetDocument): Promise<Buffer> => Promise.resolve(budgetWorkbook(data)),
  },
} as const;

/** The budget case and the interval policy. */
export function moneyRoutes(app: Express, context: Context, background: Background): void {
  const read = (query: z.infer<typeof budgetQuery>) => () => readBudget(context, background, query);
  serveEndpoint(app, 'budget', ({ query }) => wholeAnswer(read(query)));
  serveEndpoint(app, 'budgetWork', ({ query }) => workState(read(query)));
  serveFleet(app, context, 'budgetCheck', async ({ query: { amount, months = 12, from } }) => {
    const store = await context.current();
    const today = await context.asOf(store);
    const asOf = from ?? isoFromDay(dayFromIso(today) - 365);
    if (asOf >= today) throw new Problem(422, 'not_past', `from must lie before ${today}, got ${asOf}.`);
    const query = { amount, months, asOf };
    await wholeAnswer(read(query));
    return { name: 'budgetCheck', more: { request: JSON.stringify(questionOf(query)) } };
  });
  serveFleet(app, context, 'policy', ({ query }) => ({ name: 'policy', ...query }));
  serveEndpoint(app, 'policyTrial', async ({ query: { asOf, months = 36, ...asked } }) => {
    const store = await context.current();
    const { text } = await askFleet(context, store, {
      name: 'policyTrial',
      asOf,
      more: { ...asked, months },
    });
    const trial = JSON.parse(text) as PolicyTrialDocument | null;
    if (trial === null)
      throw new Problem(
        422,
        'no_duty',
        `duty must be a duty group with use and oil changes on record, got "${asked.duty}".`,
      );
    return trial;
  });
  serveFleet(app, context, 'spend', ({ query }) => ({ name: 'spend', ...query }));
  serveEndpoint(app, 'adoptPolicy', async ({ body }) => {
    const result = await adoptPolicy(context, await context.current(), {
      ...body,
      note: body.note === undefined || body.note === '' ? null : body.note,
    });
    if ('refusal' in result) throw new Problem(422, result.code, `${result.refusal}.`);
    return result.adopted;
  });
  serveEndpoint(app, 'withdrawPolicy', async ({ body }) => {
    const result = await withdrawPolicy(context, await context.current(), body.duty, body.withdrawnBy);
    if ('refusal' in result) throw new Problem(422, result.code, `${result.refusal}.`);
    return result;
  });
  for (const kind of ['pdf', 'xlsx'] as const)
    app.get(`/api/budget.${kind}`, async (request, response) => {
      const parsed = budgetQuery.safeParse(request.query);
      if (!parsed.success) {
        const [issue] = parsed.error.issues;
        throw new Problem(400, 'bad_request', `query.${issue.path.join('.')}: ${issue.message}`);
      }
      const data = await wholeAnswer(read(parsed.data));
      response
        .type(files[kind].type)
        .set('Content-Disposition', `attachment; filename="budget-${data.asOf}.${kind}"`)
        .send(await files[kind].make(data));
    });
}
