import { z } from 'zod';
import { isoDate } from './day.ts';

/** How a value stands; `alert` only where the fleet's own alarm limits have it. */
export const levels = ['normal', 'caution', 'alert', 'condemn'] as const;
const level = z.enum(levels);
const nullableNumber = z.number().nullable();

/** One value of a sample with its limits. */
export const measuredView = z.object({
  measurand: z.string(),
  label: z.string(),
  value: z.number().describe('as the laboratory reported it'),
  unit: z.string(),
  level: level.describe('the worse of both limits'),
  absolute: z.object({ level, words: z.string(), source: z.string() }).nullable(),
  fleet: z
    .object({
      level,
      value: z.number().describe('as compared: wear metals per 1000 km, others as reported'),
      unit: z.string(),
      caution: z.number(),
      alert: z.number(),
      condemn: z.number(),
      samples: z.number().int().describe('samples that the limits rest on'),
      provisional: z.boolean(),
      population: z.string(),
    })
    .nullable()
    .describe('by the alarm limits of like samples; null: too few of them'),
  expected: z
    .object({ value: z.number(), low: z.number(), high: z.number() })
    .nullable()
    .describe('what the model expects of the reading, 80 % range; null: not modelled'),
  countedLess: z.boolean().describe('far from what was expected: kept, but weighted down'),
});
export type MeasuredView = z.infer<typeof measuredView>;

/** One sample, judged. */
export const sampleView = z.object({
  on: isoDate,
  recordId: z.number().int(),
  labNumber: z.string().nullable(),
  oilKm: nullableNumber.meta({ unit: 'km' }),
  running: z.boolean().describe('of the oil now in the engine'),
  breakIn: z.boolean().describe('first two drains after engine or cover work'),
  level,
  values: z.array(measuredView),
  warnings: z.array(z.object({ code: z.string(), stop: z.boolean(), words: z.string() })),
  notes: z.array(z.string()).describe('what was left out of the judgement, and why'),
});
export type SampleView = z.infer<typeof sampleView>;

/** Measured points of one measurand over the model's band. */
export const sampleCourse = z.object({
  measurand: z.string(),
  label: z.string(),
  unit: z.string(),
  words: z.string().describe('what the band is'),
  trend: z.string().nullable().describe('how it changes with distance from sample to sample; null: no trend'),
  band: z.array(z.object({ on: isoDate, value: z.number(), low: z.number(), high: z.number() })),
  measured: z.array(z.object({ on: isoDate, value: z.number(), level })),
  limits: z.array(z.object({ level, value: z.number() })),
});
export type SampleCourse = z.infer<typeof sampleCourse>;

/** A longer interval that a named person approved. */
export const intervalApproval = z.object({
  id: z.number().int(),
  unitNumber: z.string(),
  intervalKm: z.number().meta({ unit: 'km' }),
  approvedBy: z.string(),
  approvedOn: isoDate,
  note: z.string().nullable(),
  evidence: z.array(z.string()).describe('what it rested on when it was given'),
  withdrawnOn: isoDate.nullable(),
  withdrawnBy: z.string().nullable(),
});
export type IntervalApproval = z.infer<typeof intervalApproval>;

/** Whether the unit's interval may go past the book, and by what. */
export const extensionView = z.object({
  bookKm: nullableNumber.meta({ unit: 'km' }),
  mostKm: nullableNumber.meta({ unit: 'km' }).describe('the chemical limit; nothing longer is approved'),
  refusals: z.array(z.string()).describe('what stands against it; empty: it may be approved'),
  evidence: z.array(z.string()),
  standing: intervalApproval.nullable(),
  blocked: z.string().nullable().describe('why an approval that was given does not hold now'),
});

const populationLimit = z.object({
  measurand: z.string(),
  label: z.string(),
  unit: z.string(),
  caution: z.number(),
  alert: z.number(),
  condemn: z.number(),
  samples: z.number().int(),
  provisional: z.boolean(),
});

/** Alarm limits of one population. */
export const populationView = z.object({
  name: z.string(),
  engineFamily: z.string(),
  breakIn: z.boolean(),
  samples: z.number().int(),
  limits: z.array(populationLimit).describe('none while there are too few samples'),
});
export type PopulationView = z.infer<typeof populationView>;

/** All samples of units in service against their limits. */
export const fleetSamples = z.object({
  asOf: isoDate,
  leastSamples: z.number().int(),
  leftOff: z.number().int().describe('older samples that are not listed'),
  populations: z.array(populationView),
  measurands: z.array(
    z.object({
      measurand: z.string(),
      label: z.string(),
      unit: z.string(),
      limits: z.array(
        z.object({
          level,
          side: z.enum(['min', 'max']),
          value: z.number(),
          families: z.array(z.string()).nullable().describe('engine families it holds for; null: all'),
        }),
      ),
    }),
  ),
  samples: z.array(
    z.object({
      unitNumber: z.string(),
      engineFamily: z.string().nullable(),
      on: isoDate,
      recordId: z.number().int(),
      oilKm: nullableNumber.meta({ unit: 'km' }),
      running: z.boolean(),
      breakIn: z.boolean(),
      level,
      warnings: z.array(z.string()),
      values: z.array(
        z.object({
          measurand: z.string(),
          value: z.number().describe('as compared with the limits of the measurand'),
          level,
        }),
      ),
    }),
  ),
});
export type FleetSamples = z.infer<typeof fleetSamples>;
