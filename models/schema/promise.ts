import { z } from 'zod';
import { isoDate } from './day.ts';
import { asOfQuery } from './asOfQuery.ts';

/** How the oil changes of one site in one month fell against their due. */
export const promiseMonth = z.object({
  site: z.string(),
  month: z.string().describe('2026-03'),
  early: z.number().int(),
  onTime: z.number().int(),
  late: z.number().int(),
});
export type PromiseMonth = z.infer<typeof promiseMonth>;

/** How well the shop keeps its own promise. */
export const promiseKept = z.object({
  asOf: isoDate,
  tolerance: z.number().meta({ unit: 'share' }).describe('of the interval, either way: on time'),
  months: z.array(promiseMonth),
  pastDue: z
    .array(z.object({ site: z.string(), unitNumber: z.string(), days: z.number().int() }))
    .describe('units past due now, longest first'),
  notJudged: z.number().int().describe('drains whose charge began or ended without a record'),
});
export type PromiseKept = z.infer<typeof promiseKept>;

export const promiseEndpoints = {
  promise: {
    method: 'get',
    path: '/api/promise',
    summary: 'Oil changes early, on time and late by site and month, and how long past due units have been',
    query: asOfQuery,
    response: promiseKept,
  },
} as const;
