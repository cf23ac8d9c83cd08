import type { Express } from 'express';
import type { z } from 'zod';
import type { BudgetQuestion } from '../../models/assessment/moneyDocument.ts';
import { budgetAssumptions, type BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { budgetQuery } from '../../models/schema/moneyEndpoints.ts';
import type { Context } from '../context.ts';
import { budgetPdf } from '../files/budgetPdf.ts';
import { budgetWorkbook } from '../files/budgetWorkbook.ts';
import { budgetOf, NoSuchUnit, usualDraws, usualSeed } from '../services/moneyCase.ts';
import { adoptPolicy, withdrawPolicy } from '../services/adoptPolicy.ts';
import { policyOf } from '../services/policyOf.ts';
import { spendOf } from '../services/spendOf.ts';
import { serveEndpoint } from './endpoint.ts';
import { Problem } from './problem.ts';

const listed = (text: string | undefined): string[] =>
  (text ?? '')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** The question that an address asks; money to whole cents. */
export function questionOf(query: z.infer<typeof budgetQuery>): BudgetQuestion {
  return {
    amountCents: Math.round(100 * query.amount),
    months: query.months,
    seed: query.seed ?? usualSeed,
    draws: usualDraws,
    mustDo: listed(query.mustDo),
    mustNot: listed(query.mustNot),
    hoursPerYear: query.hoursPerYear ?? null,
    assumed: budgetAssumptions.parse(query),
  };
}

/** A list that names a unit which is not there is the asker's to mend. */
export async function orProblem<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof NoSuchUnit) throw new Problem(422, 'no_unit', `${error.message}.`);
    throw error;
  }
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
export function moneyRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'budget', async ({ query }) =>
    orProblem(budgetOf(context, await context.current(), questionOf(query), query.asOf)),
  );
  serveEndpoint(app, 'policy', async ({ query }) => policyOf(context, await context.current(), query.asOf));
  serveEndpoint(app, 'spend', async ({ query }) => spendOf(context, await context.current(), query.asOf));
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
      const data = await orProblem(
        budgetOf(context, await context.current(), questionOf(parsed.data), parsed.data.asOf),
      );
      response
        .type(files[kind].type)
        .set('Content-Disposition', `attachment; filename="budget-${data.asOf}.${kind}"`)
        .send(await files[kind].make(data));
    });
}
