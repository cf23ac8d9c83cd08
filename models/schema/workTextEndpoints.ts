import { z } from 'zod';
import { workKinds } from './service.ts';

const workList = z.array(z.enum(workKinds)).min(1).max(workKinds.length);

/** A work text that was read with too little certainty, with where it stands. */
export const unknownText = z.object({
  text: z.string(),
  count: z.number().int().describe('rows that have it'),
  works: workList.describe('what it is read as for now'),
  confidence: z.number().min(0).max(1),
  examples: z.array(
    z.object({
      id: z.number().int().describe('record of kind service'),
      unitNumber: z.string(),
      on: z.string(),
      file: z.string(),
      line: z.number().int(),
    }),
  ),
});
export type UnknownText = z.infer<typeof unknownText>;

/** A work text that a person settled. */
export const taughtText = z.object({
  text: z.string(),
  works: workList,
  count: z.number().int().describe('rows that have it'),
  taughtAt: z.string(),
  taughtBy: z.string(),
});

/** Endpoints of work texts: what isn't known, teaching one, taking that back. */
export const workTextEndpoints = {
  workTexts: {
    method: 'get',
    path: '/api/work-texts',
    summary: 'Work texts that are not understood well, most rows first, and those that people taught',
    query: z.object({ limit: z.coerce.number().int().min(1).max(500).optional() }),
    response: z.object({ unknown: z.array(unknownText), taught: z.array(taughtText) }),
  },
  teachWorkText: {
    method: 'post',
    path: '/api/work-texts',
    summary: 'Teaches what a work text means; the whole history is read again',
    body: z.object({
      text: z.string().trim().min(1).max(2000),
      works: workList.describe('["other"]: none of the jobs that count here'),
      by: z.string().trim().min(1).max(100).optional(),
    }),
    response: z.object({ text: z.string(), works: workList, rows: z.number().int() }),
  },
  forgetWorkText: {
    method: 'post',
    path: '/api/work-texts/forget',
    summary: 'Takes a taught work text back; it is read as before',
    body: z.object({ text: z.string().trim().min(1).max(2000) }),
    response: z.object({ text: z.string(), rows: z.number().int() }),
  },
} as const;
