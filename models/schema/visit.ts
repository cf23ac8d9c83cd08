import { z } from 'zod';
import { isoDate } from './day.ts';
import { shopJobs } from './shopPlan.ts';

/** Where a visit stands. */
export const visitStates = [
  'asked',
  'booked',
  'arrived',
  'waiting_parts',
  'done',
  'put_off',
  'did_not_come',
] as const;
export type VisitState = (typeof visitStates)[number];

/** States in the words of the shop. */
export const visitStateWords: Readonly<Record<VisitState, string>> = {
  asked: 'asked for',
  booked: 'booked',
  arrived: 'arrived',
  waiting_parts: 'waiting for parts',
  done: 'done',
  put_off: 'put off',
  did_not_come: 'did not come',
};

const person = () => z.string().trim().min(2).max(100);

/** One stay of a unit in a shop, kept with a number that grows with every change. */
export const visit = z.object({
  id: z.number().int(),
  planVisitId: z.string().nullable().describe('the visit of the plan it was published from'),
  unitNumber: z.string(),
  site: z.string().nullable(),
  place: z.enum(['bay', 'outside', 'mobile']),
  outsideShop: z.string().nullable(),
  bay: z.string().nullable(),
  technician: z.string().nullable(),
  on: isoDate,
  lastDay: isoDate,
  startMinute: z.number().int().nullable().describe('local minutes after midnight'),
  endMinute: z.number().int().nullable(),
  startsAt: z.string().nullable().describe("local time with its offset, '2026-04-01T08:00:00-05:00'"),
  endsAt: z.string().nullable(),
  jobs: z.array(z.enum(shopJobs)).min(1),
  state: z.enum(visitStates),
  version: z.number().int(),
  timesPutOff: z.number().int(),
  plannedHours: z.number().nullable().meta({ unit: 'h' }),
  plannedCents: z.number().int().nullable().meta({ unit: 'cents' }),
  actualHours: z.number().nullable().meta({ unit: 'h' }),
  actualCents: z.number().int().nullable().meta({ unit: 'cents' }),
  askedBecause: z.string().nullable().describe('why it was asked in, in words'),
  batch: z.string().nullable().describe('the intake that its closed card became'),
  batchTakenBack: z.boolean(),
});
export type Visit = z.infer<typeof visit>;

/** One change of a visit. */
export const visitMove = z.object({
  version: z.number().int().describe('the version that it made'),
  from: z.enum(visitStates).nullable(),
  to: z.enum(visitStates),
  at: z.string(),
  by: z.string(),
  reason: z.string().nullable(),
  approver: z.string().nullable(),
  manager: z.string().nullable(),
  newDate: isoDate.nullable(),
  risk: z.string().nullable().describe('what putting off adds, in words'),
  undone: z.boolean(),
  words: z.string(),
});
export type VisitMove = z.infer<typeof visitMove>;

/** A unit asked in. */
export const visitRequest = z.object({
  unitNumber: z.string().min(1).max(100),
  jobs: z.array(z.enum(shopJobs)).min(1),
  on: isoDate,
  site: z.string().max(100).nullable().default(null),
  bay: z.string().max(100).nullable().default(null),
  technician: z.string().max(100).nullable().default(null),
  state: z.enum(['asked', 'booked', 'arrived']).default('asked'),
  reason: z.string().trim().max(500).nullable().default(null),
  by: person(),
});
export type VisitRequest = z.infer<typeof visitRequest>;

/** The next state of a visit; putting off says why, who approved, and until when. */
export const visitStep = z.object({
  version: z.number().int().describe('the version that the writer saw'),
  to: z.enum(visitStates),
  by: person(),
  reason: z.string().trim().max(500).nullable().default(null),
  approver: z.string().trim().max(100).nullable().default(null),
  manager: z.string().trim().max(100).nullable().default(null),
  newDate: isoDate.nullable().default(null),
});
export type VisitStep = z.infer<typeof visitStep>;
