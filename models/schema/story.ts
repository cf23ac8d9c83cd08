import { z } from 'zod';
import { governingLimits, unitAssessment } from './assessment.ts';
import { isoDate } from './day.ts';
import { extensionView, sampleCourse, sampleView } from './sampleView.ts';

const nullableNumber = z.number().nullable();

/** A link to the record behind a mark: file and line. */
export const recordLink = z.object({
  kind: z.string(),
  id: z.number().int(),
  file: z.string(),
  line: z.number().int(),
  on: isoDate,
  text: z.string().describe('the record in one line'),
});
export type RecordLink = z.infer<typeof recordLink>;

/** One oil charge on the unit's time axis. */
export const chargeStory = z.object({
  from: isoDate,
  to: isoDate,
  running: z.boolean().describe('true for the oil now in the engine'),
  grade: z.string().nullable(),
  distanceKm: nullableNumber,
  engineHours: nullableNumber,
  idleHours: nullableNumber,
  intervalKm: nullableNumber.describe('the interval the model would have set'),
  usedShare: nullableNumber,
  governingLimit: z.enum(governingLimits).nullable(),
  startKnown: z.boolean().describe('false: no record of the drain, start assumed'),
  notes: z.array(z.string()),
  state: z
    .object({
      baseNumber: z.number(),
      acidNumber: z.number(),
      oxidation: z.number(),
      fuelPercent: z.number(),
      sootPercent: z.number(),
      kv100: z.number(),
      dispersancyUsed: z.number(),
    })
    .nullable(),
});
export type ChargeStory = z.infer<typeof chargeStory>;

/** A state with its 80 % range on one day. */
export const statePoint = z.object({ on: isoDate, value: z.number(), low: z.number(), high: z.number() });
export type StatePoint = z.infer<typeof statePoint>;

/** One limit of the interval now running. */
export const limitLine = z.object({
  limit: z.enum(governingLimits),
  atKm: nullableNumber,
  atHours: nullableNumber,
  atDays: nullableNumber,
  used: nullableNumber.describe('share of this limit used now'),
  marginDays: nullableNumber.describe('days that it falls after the governing limit; 0: it governs'),
  words: z.string(),
});
export type LimitLine = z.infer<typeof limitLine>;

/** All that the unit page shows. */
export const unitStory = z.object({
  assessment: unitAssessment,
  charges: z.array(chargeStory),
  limits: z.array(limitLine),
  intervalWords: z.array(z.string()).describe('why this interval, in sentences to repeat to a driver'),
  meters: z.array(
    z.object({
      on: isoDate,
      odometerKm: nullableNumber,
      engineHours: nullableNumber,
      idleHours: nullableNumber,
    }),
  ),
  sludge: z.array(statePoint),
  chain: z.array(statePoint),
  phaser: z.array(statePoint),
  evidence: z.array(
    z.object({
      on: isoDate,
      state: z.enum(['sludge', 'chain', 'phaser', 'oil']),
      value: nullableNumber,
      words: z.string(),
      link: recordLink.nullable(),
    }),
  ),
  renewals: z.array(z.object({ on: isoDate, words: z.string(), link: recordLink.nullable() })),
  records: z.array(recordLink),
  cautions: z.array(z.string()),
  whatWouldChange: z.array(z.string()),
  samples: z.array(sampleView).describe('judged, newest first'),
  sampleCourses: z.array(sampleCourse).describe('measured points over the model'),
  rightOil: z
    .array(
      z.object({
        topic: z.enum(['grade', 'category', 'season', 'mixture']),
        verdict: z.enum(['right', 'differs', 'wrong', 'unknown']),
        words: z.string(),
      }),
    )
    .describe('whether the right oil is in; none where no fill is on record'),
  rightOilEffect: z
    .array(z.string())
    .describe('what the oil asked for would change in interval and wear; none where it is in'),
  makeUp: z.string().nullable().describe('oil added between changes, per distance; null: none on record'),
  extension: extensionView,
});
export type UnitStory = z.infer<typeof unitStory>;
