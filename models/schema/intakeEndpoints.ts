import { z } from 'zod';
import { columnMapEndpoints, columnMapName, keptColumnMap } from './columnMapEndpoints.ts';
import { recordKinds } from './kinds.ts';
import { columnProfile, heldActions, heldRow, intakeBatch, intakeOptions, intakeReport } from './intake.ts';

const cursorQuery = z.object({
  cursor: z.string().optional(),
  limit: z.coerce.number().int().min(1).max(1000).optional(),
});

/** What is said beside files that come in the request itself, in its query or as fields of its form. */
export const directIntakeOptions = intakeOptions.extend({
  dryRun: z
    .enum(['true', 'false'])
    .default('false')
    .transform((text) => text === 'true'),
  name: z.string().min(1).max(255).optional().describe('of the file that is the body'),
});

/** Endpoints of bringing records in, looking back at it, and deciding held rows. */
export const intakeEndpoints = {
  upload: {
    method: 'post',
    path: '/api/uploads',
    summary: 'Leaves one file (the request body, application/octet-stream) for an intake',
    query: z.object({ name: z.string().min(1).max(255) }),
    response: z.object({ upload: z.string(), name: z.string(), bytes: z.number().int() }),
  },
  profile: {
    method: 'get',
    path: '/api/uploads/:upload/profile',
    summary:
      'What the columns of an uploaded file hold, from a sample: missing values, extremes, lengths, means',
    response: z.object({ file: z.string(), rows: z.number().int(), columns: z.array(columnProfile) }),
  },
  intake: {
    method: 'post',
    path: '/api/intake',
    summary: 'Takes uploaded files in (dryRun: says what would happen)',
    body: intakeOptions.extend({
      uploads: z.array(z.string()).min(1).max(100),
      kinds: z
        .record(z.string(), z.enum(recordKinds))
        .optional()
        .describe('by file, or file#sheet: the kind of its records, where the file leaves it open'),
      corrections: z
        .record(z.string(), keptColumnMap.shape.columns)
        .optional()
        .describe('by file, or file#sheet: what columns mean, where they were understood otherwise'),
      keepAs: z
        .record(z.string(), columnMapName)
        .optional()
        .describe('by file, or file#sheet: the name under which its corrections are kept'),
      job: z.uuid().optional().describe('a name of your own to ask how far it is, and to call it off'),
    }),
    response: intakeReport,
  },
  intakeJob: {
    method: 'get',
    path: '/api/intake/jobs/:job',
    summary: 'How far an intake that was given a job is',
    response: z.object({
      running: z.boolean().describe('false: it has not begun, or is over'),
      file: z.string(),
      rows: z.number().int(),
      share: z.number().min(0).max(1).describe('of the whole intake'),
    }),
  },
  cancelIntake: {
    method: 'post',
    path: '/api/intake/jobs/:job/cancel',
    summary: 'Calls an intake off; nothing is changed',
    body: z.object({}),
    response: z.object({ cancelled: z.boolean() }),
  },
  ...columnMapEndpoints,
  batches: {
    method: 'get',
    path: '/api/intake/batches',
    summary: 'Every intake so far, newest first',
    query: cursorQuery,
    response: z.object({ batches: z.array(intakeBatch), next: z.string().nullable() }),
  },
  undo: {
    method: 'post',
    path: '/api/intake/batches/:batch/undo',
    summary: 'Takes an intake back whole',
    body: z.object({}),
    response: z.object({ batch: z.string(), removed: z.number().int() }),
  },
  held: {
    method: 'get',
    path: '/api/held',
    summary: 'Rows that wait for a decision',
    query: cursorQuery.extend({ code: z.string().optional(), state: z.string().optional() }),
    response: z.object({
      rows: z.array(heldRow),
      next: z.string().nullable(),
      anyDecided: z.boolean().describe('whether any row was decided before'),
      groups: z.array(
        z.object({
          code: z.string(),
          count: z.number().int(),
          message: z.string(),
          mendable: z.number().int().describe('rows with a suggested mend'),
        }),
      ),
    }),
  },
  decideHeld: {
    method: 'post',
    path: '/api/held/decisions',
    summary: 'Accepts, mends, rejects or reopens held rows',
    body: z.object({
      ids: z.array(z.number().int()).min(1).max(10_000),
      action: z.enum(heldActions),
      cells: z
        .array(z.string())
        .optional()
        .describe('with mend: the corrected cells, for one row; without it the suggested mend is taken'),
      by: z.string().trim().min(1).max(100).optional().describe('who decides'),
    }),
    response: z.object({
      done: z.number().int(),
      refused: z.array(z.object({ id: z.number().int(), message: z.string() })),
    }),
  },
} as const;
