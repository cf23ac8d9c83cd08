import { z } from 'zod';
import { isoDate } from './day.ts';
import { shopJobs } from './shopPlan.ts';

const hours = () => z.number().min(0).nullable().meta({ unit: 'h' });
const cents = () => z.number().int().nullable().meta({ unit: 'cents' });

/** A closed visit against what was planned for it. */
export const closedVisit = z.object({
  visit: z.number().int(),
  unitNumber: z.string(),
  site: z.string().nullable(),
  on: isoDate,
  jobs: z.array(z.enum(shopJobs)),
  plannedHours: hours(),
  actualHours: hours(),
  plannedCents: cents().describe('labour, parts and oil'),
  actualCents: cents(),
});

/** How long a kind of job takes here against the catalog; later plans use it. */
export const learnedJob = z.object({
  job: z.enum(shopJobs),
  visits: z
    .number()
    .describe('closed visits that speak of it; one with several jobs counts in part for each'),
  ratio: z.number().describe('to the hours of catalog and settings'),
  low: z.number().describe('80 % range'),
  high: z.number(),
});

export const actuals = z.object({
  asOf: isoDate,
  currency: z.string(),
  visits: z.array(closedVisit).describe('newest first'),
  learned: z.array(learnedJob),
});
export type Actuals = z.infer<typeof actuals>;

/** The endpoint of planned against actual hours and costs. */
export const actualEndpoints = {
  actuals: {
    method: 'get',
    path: '/api/actuals',
    summary: 'Planned against actual hours and cost of closed visits, and what later plans take from them',
    response: actuals,
  },
} as const;
