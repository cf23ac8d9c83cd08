import { z } from 'zod';
import { isoDate } from './day.ts';
import { moveCost, moveTarget, shopPlan } from './shopPlan.ts';

/** Which plan: left out, it begins on the day of the store and runs for eight weeks. */
export const planQuery = z.object({
  from: isoDate.optional(),
  weeks: z.coerce.number().int().min(1).max(52).default(8),
});
export type PlanQuery = z.infer<typeof planQuery>;

const person = () => z.string().trim().min(2).max(100);

/** A plan with what the page needs beside it. */
export const planAnswer = z.object({
  plan: shopPlan,
  currency: z.string(),
  sites: z.array(
    z.object({
      site: z.string(),
      bays: z.array(z.string()),
      opensAtMinute: z.number().int(),
      closesAtMinute: z.number().int(),
    }),
  ),
  booked: z
    .array(z.object({ planVisitId: z.string(), visit: z.number().int() }))
    .describe('visits of the plan that are booked already, with the number of the booking'),
  loans: z
    .array(
      z.object({
        loanUnit: z.string(),
        visitId: z.string(),
        unitNumber: z.string(),
        from: isoDate,
        through: isoDate,
        savedCents: z.number().int().meta({ unit: 'cents' }),
      }),
    )
    .describe('loan units that stand in while a unit is in the shop'),
  stand: z
    .string()
    .describe('changes with every change of the plan; given with a change, it tells a second writer'),
});
export type PlanAnswer = z.infer<typeof planAnswer>;

const stand = z.string().max(100).optional().describe('the stand that the writer saw');
const change = planQuery.extend({ visitId: z.string().max(300), stand });

/** Endpoints of the shop plan. */
export const planEndpoints = {
  plan: {
    method: 'get',
    path: '/api/plan',
    summary: 'The shop plan: visits with bay, person and time; what has no place and its price',
    query: planQuery,
    response: planAnswer,
  },
  planWork: {
    method: 'get',
    path: '/api/plan/work',
    summary: 'The same plan while it is worked out: how far it is, and the plan when it is ready',
    query: planQuery,
    response: z.object({
      state: z.enum(['working', 'ready', 'failed']),
      reason: z.string().nullable().describe('why it failed'),
      done: z.number().int().describe('steps done: the fleet, then each site'),
      total: z.number().int(),
      result: planAnswer.nullable(),
    }),
  },
  planCostOfMove: {
    method: 'post',
    path: '/api/plan/cost-of-move',
    summary: 'What it costs to put one visit elsewhere, and what speaks against it',
    body: change.extend({ to: moveTarget }),
    response: moveCost,
  },
  movePlanned: {
    method: 'post',
    path: '/api/plan/move',
    summary: 'Puts a visit elsewhere, locks it there and plans the others around it',
    body: change.extend({ to: moveTarget }),
    response: planAnswer,
  },
  lockPlanned: {
    method: 'post',
    path: '/api/plan/lock',
    summary: 'Locks a visit where it is, or frees it',
    body: change.extend({ locked: z.boolean() }),
    response: planAnswer,
  },
  publishPlan: {
    method: 'post',
    path: '/api/plan/publish',
    summary: 'Books the visits of the plan that begin by a day',
    body: planQuery.extend({ through: isoDate, by: person(), stand }),
    response: planAnswer.extend({ published: z.number().int() }),
  },
  planFeeds: {
    method: 'get',
    path: '/api/plan/feeds',
    summary: 'Sites whose calendar has a private address',
    response: z.object({
      feeds: z.array(z.object({ site: z.string(), madeAt: z.string(), madeBy: z.string() })),
    }),
  },
  makePlanFeed: {
    method: 'post',
    path: '/api/plan/feeds',
    summary: "A new private address for a site's calendar; an earlier one stops working",
    body: z.object({ site: z.string().min(1).max(100), by: person() }),
    response: z.object({ site: z.string(), path: z.string().describe('shown once; only its hash is kept') }),
  },
} as const;
