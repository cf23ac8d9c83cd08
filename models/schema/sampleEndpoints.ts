import { z } from 'zod';
import { asOfQuery } from './asOfQuery.ts';
import { fleetSamples, intervalApproval } from './sampleView.ts';

/** Endpoints of oil samples and of the longer intervals that rest on them. */
export const sampleEndpoints = {
  samples: {
    method: 'get',
    path: '/api/samples',
    summary: 'Oil samples of the fleet against absolute limits and the alarm limits of like samples',
    query: asOfQuery,
    response: fleetSamples,
  },
  approveInterval: {
    method: 'post',
    path: '/api/units/:unitNumber/approvals',
    summary: 'Records that a named person approved an interval longer than the book',
    body: z.object({
      intervalKm: z.number().positive().max(200_000).meta({ unit: 'km' }),
      approvedBy: z.string().trim().min(2).max(100).describe('name of the person who answers for it'),
      note: z.string().trim().max(500).nullable().optional(),
    }),
    response: intervalApproval,
  },
  withdrawApproval: {
    method: 'post',
    path: '/api/units/:unitNumber/approvals/withdrawal',
    summary: 'Withdraws the approvals of a unit; the book holds again',
    body: z.object({ withdrawnBy: z.string().trim().min(2).max(100) }),
    response: z.object({ withdrawn: z.number().int() }),
  },
} as const;
