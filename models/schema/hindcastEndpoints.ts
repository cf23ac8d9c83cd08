import { z } from 'zod';
import { isoDate } from './day.ts';

const known = () => z.number().nullable();

/** How one forecaster did on one window or on several together; null where there is too little to say, with the reason in the notes. */
export const hindcastScore = z.object({
  units: z.number().int(),
  events: z.number().describe('failures; a renewal of unknown cause counts its chance of having been one'),
  expected: z.number().describe('failures said, over the days planned and reached by the records'),
  expectedOnRun: z.number().describe('the same up to the day a unit was renewed or sold'),
  observedOverExpected: known(),
  observedOverExpectedLow: known().describe('exact 95 % Poisson limits'),
  observedOverExpectedHigh: known(),
  brier: known().describe('weighted by the inverse chance of being under observation; so are the next ones'),
  brierSkill: known().describe('share of the Brier score of the base rate that is saved'),
  logScore: known(),
  auc: known(),
  aucSe: known(),
  aucWithinAge: known().describe('only units of like distance since renewal compared'),
  calibrationSlope: known(),
  calibrationSlopeSe: known(),
  quintiles: z
    .array(
      z.object({
        units: z.number().int(),
        chanceLow: z.number(),
        chanceHigh: z.number(),
        expected: z.number(),
        observed: z.number(),
        observedLow: z.number(),
        observedHigh: z.number(),
      }),
    )
    .nullable(),
  countLow: known().describe('80 % range of the number of failures said'),
  countHigh: known(),
  countCoverage: known().describe('share of whole windows whose number of failures lay in the range said'),
  ranks: z.boolean().describe('whether units may be put in order by these chances'),
  notes: z.array(z.string()),
});
export type HindcastScore = z.infer<typeof hindcastScore>;

/** What was said of one unit at an origin, and what happened. */
export const hindcastPrediction = z.object({
  unitNumber: z.string(),
  engineFamily: z.string().nullable(),
  probability: z.number(),
  low: z.number(),
  high: z.number(),
  ifNotRenewed: z.number().describe('without planned renewals'),
  baseRate: z.number(),
  odometerOnly: z.number(),
  pastBookInterval: z.number(),
  outcome: z.enum(['failed', 'renewed', 'disposed', 'ran']),
  failed: z.number().min(0).max(1),
  outcomeOn: isoDate,
  record: z.object({ kind: z.string(), id: z.number().int() }).nullable(),
});
export type HindcastPrediction = z.infer<typeof hindcastPrediction>;

const scores = {
  sumpwise: hindcastScore,
  baseRate: hindcastScore,
  odometerOnly: hindcastScore,
  pastBookInterval: hindcastScore,
};

export const hindcastOriginResult = z.object({
  origin: isoDate,
  horizonDays: z.number().int(),
  observedThrough: isoDate.describe('last day of the window that the records reach'),
  observedDays: z.number().int(),
  wholeWindow: z.boolean(),
  modelVersion: z.string(),
  expectedIfNotRenewed: z.number(),
  ...scores,
  predictions: z.array(hindcastPrediction),
});
export type HindcastOriginResult = z.infer<typeof hindcastOriginResult>;

/** The fleet's own past as a test of its chances. */
export const hindcastResult = z.object({
  asOf: isoDate.describe('records known up to this day tell what happened'),
  horizonDays: z.number().int(),
  modelVersion: z.string(),
  origins: z.array(hindcastOriginResult),
  overall: z.object(scores),
  comparisons: z.array(z.string()),
  messages: z.array(z.string()),
});
export type HindcastResult = z.infer<typeof hindcastResult>;

/** One version of the fleet's failure model, with what moved against the version before. */
export const fitVersion = z.object({
  version: z.string(),
  asOf: isoDate,
  madeAt: z.string(),
  failures: z.number(),
  sets: z.number().int(),
  ownDataShare: z.number(),
  changes: z.array(z.object({ what: z.string(), before: z.number(), after: z.number(), why: z.string() })),
});
export type FitVersion = z.infer<typeof fitVersion>;

const originList = z
  .string()
  .regex(
    /^\d{4}-\d{2}-\d{2}(,\d{4}-\d{2}-\d{2}){0,11}$/,
    'must be dates like 2025-03-31 with commas between, at most 12',
  );

/** Endpoints of what was said and what happened. */
export const hindcastEndpoints = {
  hindcast: {
    method: 'get',
    path: '/api/hindcast',
    summary:
      'What was said at days in the past, beside what followed; worked out in the background, ask again while it works',
    query: z.object({
      origins: originList
        .optional()
        .describe('default: three, half-yearly, the last one horizon before the newest record'),
      horizonDays: z.coerce.number().int().min(7).max(1825).optional(),
    }),
    response: z.object({
      state: z.enum(['ready', 'working', 'refused', 'failed']),
      reason: z.string().nullable().describe('why there is no result'),
      done: z.number().int().describe('origins worked through'),
      total: z.number().int(),
      origins: z.array(isoDate),
      horizonDays: z.number().int(),
      result: hindcastResult.nullable(),
    }),
  },
  fitVersions: {
    method: 'get',
    path: '/api/fit-versions',
    summary: 'Versions of the failure model, newest first, with what changed and why',
    query: z.object({ limit: z.coerce.number().int().min(1).max(50).optional() }),
    response: z.object({ versions: z.array(fitVersion) }),
  },
} as const;
