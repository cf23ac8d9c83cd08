import { z } from 'zod';
import { isoDate } from './day.ts';

/** The five calls on a unit, most urgent first. */
export const calls = ['stop', 'book', 'plan', 'watch', 'clear'] as const;
export type Call = (typeof calls)[number];

/** The limit that governs an interval. */
export const governingLimits = [
  'base_number',
  'acid_number',
  'additive',
  'oxidation',
  'soot',
  'dispersancy',
  'fuel',
  'viscosity',
  'book',
  'hours',
  'calendar',
] as const;
export type GoverningLimit = (typeof governingLimits)[number];

const number = () => z.number().nullable();

/** The oil now in the engine and when it is due. */
export const oilAssessment = z.object({
  grade: z.string().nullable(),
  kmSinceChange: number().meta({ unit: 'km' }),
  hoursSinceChange: number().meta({ unit: 'h' }),
  chemicalLimitKm: number().meta({ unit: 'km' }),
  adjustedIntervalKm: number().meta({ unit: 'km' }),
  adjustedIntervalHours: number().meta({ unit: 'h' }),
  usedShare: number().describe('of the adjusted interval; above 1 = past'),
  governingLimit: z.enum(governingLimits).nullable(),
  dueOn: isoDate.nullable(),
  dueOnEarliest: isoDate.nullable(),
  dueOnLatest: isoDate.nullable(),
  dueOdometerKm: number().meta({ unit: 'km' }),
  dueEngineHours: number().meta({ unit: 'h' }),
});
export type OilAssessment = z.infer<typeof oilAssessment>;

/** One cause's share in the failure chance; the causes add up to the whole against the fleet's mean. */
export const contribution = z.object({ cause: z.string(), logHazard: z.number() });
export type Contribution = z.infer<typeof contribution>;

/** Everything said of one unit. `low`/`high` are the 80 % range; null = not applicable or not known. */
export const unitAssessment = z.object({
  unitNumber: z.string(),
  call: z.enum(calls),
  reasons: z.array(z.string()),
  recordQuality: z.number().min(0).max(1),
  site: z.string().nullable(),
  dutyName: z.string().nullable(),
  engineFamily: z.string().nullable(),
  odometerKm: number().meta({ unit: 'km' }),
  lastRecordOn: isoDate.nullable(),
  duty: z.object({
    kmPerDay: number(),
    idleShare: number().describe('of engine hours'),
    hoursPerDay: number(),
    severe: z.boolean(),
    severeReasons: z.array(z.string()),
    inferred: z.array(z.string()),
  }),
  oil: oilAssessment.nullable(),
  sludge: z.object({ index: z.number(), low: z.number(), high: z.number() }).nullable(),
  chain: z.object({ elongationPercent: z.number(), low: z.number(), high: z.number() }).nullable(),
  phaser: z.object({ wearShare: z.number(), low: z.number(), high: z.number() }).nullable(),
  failure: z
    .object({
      probability: z.number(),
      low: z.number(),
      high: z.number(),
      ownDataShare: z.number(),
      basis: z.string().describe('in words: what the chance rests on'),
      components: z.object({ chain: number(), phaser: number() }),
      contributions: z.array(contribution),
    })
    .nullable(),
  notKnown: z.record(z.string(), z.string()).describe('why a null is null, by path'),
  nextStep: z.string().describe('what to do next, in a few words'),
  dueReason: z.string().nullable().describe('the reason shown in the chart of due weeks'),
  chanceDueByWeek: z
    .array(z.number())
    .describe('chance of falling due in each of the next 13 weeks; [0] holds what is past'),
});
export type UnitAssessment = z.infer<typeof unitAssessment>;

/** A site's room for oil services. */
export const siteCapacity = z.object({
  site: z.string(),
  visitsPerWeek: z.number(),
  shopShare: z.number().describe('share of the bay hours that is counted as there for this work'),
  assumed: z.boolean().describe('true: no site record, so one bay and one technician of 8 h on weekdays'),
});

/** The document that `assess --json` prints. */
export const assessment = z.object({
  asOf: isoDate,
  horizonDays: z.number().int().meta({ unit: 'd' }),
  modelVersion: z.string(),
  newestRecordOn: isoDate.nullable(),
  messages: z.array(z.string()).describe('what holds for the whole fleet: assumptions, missing inputs'),
  expectedFailures: z.object({ mid: z.number(), low: z.number(), high: z.number() }).nullable(),
  capacities: z.array(siteCapacity),
  units: z.array(unitAssessment),
});
export type Assessment = z.infer<typeof assessment>;
