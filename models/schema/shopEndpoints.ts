import { z } from 'zod';
import { actualEndpoints } from './actualEndpoints.ts';
import { isoDate } from './day.ts';
import { cardClosing, jobCard } from './jobCard.ts';
import { shopJobs } from './shopPlan.ts';
import { shopRecordEndpoints } from './shopRecordEndpoints.ts';
import { visit, visitMove, visitRequest, visitStates, visitStep } from './visit.ts';

const visitAnswer = z.object({ visit, moves: z.array(visitMove) });

/** What closing a card did. */
export const cardClosed = z.object({
  visit,
  batch: z.string(),
  records: z.number().int(),
  messages: z.array(z.string()),
  dueBefore: isoDate.nullable(),
  dueAfter: isoDate.nullable(),
  callBefore: z.string().nullable(),
  callAfter: z.string().nullable(),
});

/** One entry of the log of used and bulk oil. */
export const oilEntry = z.object({
  id: z.number().int(),
  kind: z.enum(['collected', 'picked_up', 'bulk_drawn']),
  on: isoDate,
  site: z.string().nullable(),
  grade: z.string().nullable(),
  liters: z.number().min(0).meta({ unit: 'L' }),
  who: z.string(),
  note: z.string().nullable(),
  visitId: z.number().int().nullable(),
});
export type OilEntry = z.infer<typeof oilEntry>;

/** Endpoints of visits, job cards, shop records and the oil log. */
export const shopEndpoints = {
  ...actualEndpoints,
  ...shopRecordEndpoints,
  visits: {
    method: 'get',
    path: '/api/visits',
    summary: 'Visits by day, with their states',
    query: z.object({
      site: z.string().optional(),
      unit: z.string().optional(),
      from: isoDate.optional(),
      to: isoDate.optional(),
      state: z.enum(visitStates).optional(),
    }),
    response: z.object({ asOf: isoDate, visits: z.array(visit) }),
  },
  visit: {
    method: 'get',
    path: '/api/visits/:visit',
    summary: 'One visit with every change of it',
    response: visitAnswer.extend({ nextStates: z.array(z.enum(visitStates)) }),
  },
  askVisit: {
    method: 'post',
    path: '/api/visits',
    summary: 'Asks a unit in',
    body: visitRequest,
    response: visitAnswer,
  },
  stepVisit: {
    method: 'post',
    path: '/api/visits/:visit/state',
    summary: 'Moves a visit on; putting off says why, who approved, until when and what it adds',
    body: visitStep,
    response: visitAnswer,
  },
  undoVisit: {
    method: 'post',
    path: '/api/visits/:visit/undo',
    summary: 'Takes the last change of a visit back, the records of a closed card included',
    body: z.object({ version: z.number().int(), by: z.string().trim().min(2).max(100) }),
    response: visitAnswer,
  },
  putOffRisk: {
    method: 'get',
    path: '/api/visits/:visit/risk',
    summary: 'What putting a visit off until a day adds, in words',
    query: z.object({ to: isoDate }),
    response: z.object({ words: z.string(), managerNeeded: z.boolean() }),
  },
  visitCard: {
    method: 'get',
    path: '/api/visits/:visit/card',
    summary: 'The job card of a visit',
    response: z.object({ visit, card: jobCard, closed: cardClosing.nullable() }),
  },
  newCard: {
    method: 'get',
    path: '/api/cards',
    summary: 'A job card for a unit that came without a booking',
    query: z.object({
      unit: z.string(),
      jobs: z.string().describe(`separated by commas: ${shopJobs.join(', ')}`),
    }),
    response: z.object({ card: jobCard }),
  },
  closeCard: {
    method: 'post',
    path: '/api/visits/:visit/card',
    summary: 'Closes a job card: records, stock and the state of the visit in one step',
    body: z.object({ version: z.number().int(), closing: cardClosing }),
    response: cardClosed,
  },
  closeNewCard: {
    method: 'post',
    path: '/api/cards',
    summary: 'Closes the card of a unit that came without a booking',
    body: z.object({ unitNumber: z.string(), jobs: z.array(z.enum(shopJobs)).min(1), closing: cardClosing }),
    response: cardClosed,
  },
  oilLog: {
    method: 'get',
    path: '/api/oil-log',
    summary: 'Used oil collected and picked up; bulk oil drawn against what the cards used',
    query: z.object({ site: z.string().optional() }),
    response: z.object({
      asOf: isoDate,
      entries: z.array(oilEntry),
      inDrums: z.array(z.object({ site: z.string().nullable(), liters: z.number() })),
      bulk: z.array(
        z.object({
          site: z.string().nullable(),
          grade: z.string(),
          drawnL: z.number(),
          usedByCardsL: z.number(),
          differenceL: z.number(),
        }),
      ),
    }),
  },
  addOil: {
    method: 'post',
    path: '/api/oil-log',
    summary: 'Notes a pick-up of used oil, or bulk oil drawn',
    body: z.object({
      kind: z.enum(['picked_up', 'bulk_drawn']),
      on: isoDate.nullable().default(null),
      site: z.string().max(100).nullable().default(null),
      grade: z.string().max(40).nullable().default(null),
      liters: z.number().gt(0).max(100_000).meta({ unit: 'L' }),
      who: z.string().trim().min(2).max(100),
      note: z.string().trim().max(300).nullable().default(null),
    }),
    response: oilEntry,
  },
} as const;
