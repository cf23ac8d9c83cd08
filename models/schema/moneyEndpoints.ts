import { z } from 'zod';
import { budgetAssumptions, budgetDocument } from './budgetDocument.ts';
import { budgetCheck } from './budgetCheck.ts';
import { isoDate } from './day.ts';
import { adoptedPolicy, policyDocument } from './policyDocument.ts';
import { policyTrialDocument } from './policyTrial.ts';
import { spendDocument } from './spendDocument.ts';

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
  budgetWork: {
    method: 'get',
    path: '/api/budget/work',
    summary: 'The same case while it is worked out: how far it is, and the case when it is ready',
    query: budgetQuery,
    response: z.object({
      state: z.enum(['working', 'ready', 'failed']),
      reason: z.string().nullable().describe('why it failed'),
      done: z.number().int().describe('steps done: fleet, units, choice, other budgets, futures'),
      total: z.number().int(),
      result: budgetDocument.nullable(),
    }),
  },
  budgetCheck: {
    method: 'get',
    path: '/api/budget/check',
    summary: 'The case of a day in the past, a year ago where none is asked for, beside what happened since',
    query: z.object({
      amount: z.coerce.number().min(0).max(1e10),
      months: z.coerce.number().int().min(1).max(60).optional(),
      from: isoDate.optional(),
    }),
    response: budgetCheck,
  },
  policy: {
    method: 'get',
    path: '/api/policy',
    summary: 'The cheapest drain interval per duty group',
    query: z.object({ asOf: isoDate.optional() }),
    response: policyDocument,
  },
  policyTrial: {
    method: 'get',
    path: '/api/policy/trial',
    summary:
      'A drain interval tried on a duty group: changes a month, failures, cost and due dates, with ranges',
    query: z.object({
      duty: z.string().trim().min(1).max(200),
      intervalKm: z.coerce.number().int().min(500).max(200_000).meta({ unit: 'km' }),
      months: z.coerce.number().int().min(1).max(60).optional(),
      asOf: isoDate.optional(),
    }),
    response: policyTrialDocument,
  },
  spend: {
    method: 'get',
    path: '/api/spend',
    summary: 'What was spent on oil, planned and unplanned work by month, site, duty and engine family',
    query: z.object({ asOf: isoDate.optional() }),
    response: spendDocument,
  },
  adoptPolicy: {
    method: 'post',
    path: '/api/policy/adoptions',
    summary: 'Records that a named person adopted a drain interval within the book for a duty group',
    body: z.object({
      duty: z.string().trim().min(1).max(200),
      intervalKm: z.number().min(500).max(200_000).meta({ unit: 'km' }),
      approvedBy: z.string().trim().min(2).max(100).describe('name of the person who answers for it'),
      note: z.string().trim().max(500).nullable().optional(),
    }),
    response: adoptedPolicy,
  },
  withdrawPolicy: {
    method: 'post',
    path: '/api/policy/adoptions/withdrawal',
    summary: 'Withdraws the interval adopted for a duty group; the book holds again',
    body: z.object({
      duty: z.string().trim().min(1).max(200),
      withdrawnBy: z.string().trim().min(2).max(100),
    }),
    response: z.object({ withdrawn: z.number().int() }),
  },
} as const;
