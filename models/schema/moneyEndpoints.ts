import { z } from 'zod';
import { budgetAssumptions, budgetDocument } from './budgetDocument.ts';
import { isoDate } from './day.ts';
import { policyDocument } from './policyDocument.ts';

/** What a budget is asked for. Money is plain decimal in the settings' currency; lists have commas between units. */
export const budgetQuery = z.object({
  amount: z.coerce.number().min(0).max(1e10),
  months: z.coerce.number().int().min(1).max(60),
  asOf: isoDate.optional(),
  seed: z.coerce.number().int().min(0).max(2_147_483_647).optional(),
  hoursPerYear: z.coerce.number().min(0).max(1e6).optional(),
  mustDo: z.string().max(4000).optional(),
  mustNot: z.string().max(4000).optional(),
  ...budgetAssumptions.shape,
});

/** Endpoints of the money page. */
export const moneyEndpoints = {
  budget: {
    method: 'get',
    path: '/api/budget',
    summary: 'The budget case: what an amount buys, what it avoids, what is left alone and why',
    query: budgetQuery,
    response: budgetDocument,
  },
  policy: {
    method: 'get',
    path: '/api/policy',
    summary: 'The cheapest drain interval per duty group',
    query: z.object({ asOf: isoDate.optional() }),
    response: policyDocument,
  },
} as const;
