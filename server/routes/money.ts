import type { Express } from 'express';
import type { z } from 'zod';
import type { BudgetQuestion } from '../../models/assessment/moneyDocument.ts';
import { budgetAssumptions } from '../../models/schema/budgetDocument.ts';
import type { budgetQuery } from '../../models/schema/moneyEndpoints.ts';
import type { Context } from '../context.ts';
import { budgetOf, NoSuchUnit, usualDraws, usualSeed } from '../services/moneyCase.ts';
import { policyOf } from '../services/policyOf.ts';
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

/** The budget case and the interval policy. */
export function moneyRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'budget', async ({ query }) =>
    orProblem(budgetOf(context, await context.current(), questionOf(query), query.asOf)),
  );
  serveEndpoint(app, 'policy', async ({ query }) => policyOf(context, await context.current(), query.asOf));
}
