import { z } from 'zod';
import { isoDate } from './day.ts';
import { centsRange, range } from './range.ts';

const cents = z.number().int().meta({ unit: 'cents' });

/** What may be assumed otherwise for one question; what is left out stays as the catalog has it. */
export const budgetAssumptions = z.object({
  discountRate: z.coerce
    .number()
    .min(-0.5)
    .max(1)
    .optional()
    .describe('discount rate a year; below 0 counts as 0'),
  failureFactor: z.coerce.number().min(0).max(20).optional().describe('times on the cost of every failure'),
  plannedFactor: z.coerce
    .number()
    .min(0)
    .max(20)
    .optional()
    .describe('times on the cost of all that is planned'),
  downtimePerDay: z.coerce
    .number()
    .min(0)
    .max(1e6)
    .optional()
    .describe('downtime a day where none is recorded, money'),
  labourPerHour: z.coerce
    .number()
    .min(0)
    .max(1e5)
    .optional()
    .describe('labour an hour where none is recorded, money'),
  judgedMonths: z.coerce
    .number()
    .int()
    .min(1)
    .max(120)
    .optional()
    .describe('months over which a renewal is judged'),
  leastSaving: z.coerce
    .number()
    .min(0)
    .max(1e6)
    .optional()
    .describe('least saving for which anything is recommended, money'),
  wornTimes: z.coerce
    .number()
    .min(1)
    .max(1000)
    .optional()
    .describe('failures of a worn engine, times those of a sound one'),
  restrictedTimes: z.coerce
    .number()
    .min(1)
    .max(1000)
    .optional()
    .describe('failures with a restricted screen, times those of a sound engine'),
});
export type BudgetAssumptions = z.infer<typeof budgetAssumptions>;

/** One assumption as it was used. */
export const usedAssumption = z.object({
  name: z.string(),
  words: z.string(),
  value: z.number(),
  unit: z.enum(['share', 'times', 'money', 'months']),
  low: z.number().nullable(),
  high: z.number().nullable(),
  kind: z.string(),
  source: z.string(),
  changed: z.boolean().describe('set by whoever asked'),
});
export type UsedAssumption = z.infer<typeof usedAssumption>;

/** A piece of work that the money buys. */
export const budgetLine = z.object({
  unitNumber: z.string(),
  action: z.enum(['renew', 'look', 'clean']),
  on: isoDate,
  costCents: cents,
  partsCents: cents.describe('parts of the cost'),
  labourCents: cents.describe('labour of the cost'),
  downtimeCents: cents.describe('downtime of the work, beside its cost'),
  avoidedCents: centsRange,
  words: z.string(),
  netCents: cents,
  waitingMonthCents: centsRange.nullable(),
  site: z.string().nullable(),
  engineFamily: z.string().nullable(),
  plannedDisposalOn: isoDate.nullable(),
  failureProbability: range.nullable().describe('over the judged months, run on'),
  ownDataShare: z.number().nullable(),
});
export type BudgetLineShown = z.infer<typeof budgetLine>;

export const leftUnit = z.object({
  unitNumber: z.string(),
  reason: z.string(),
  why: z.enum(['soon_gone', 'covered', 'not_known', 'elsewhere', 'listed', 'no_gain']),
  plannedDisposalOn: isoDate.nullable(),
  claimByOn: isoDate.nullable(),
});
export type LeftUnit = z.infer<typeof leftUnit>;

/** A unit still under cover: claim, do not pay. */
export const coveredUnit = z.object({
  unitNumber: z.string(),
  claimByOn: isoDate.nullable(),
  reasons: z.array(z.string()),
  evidence: z.array(z.string()).describe('records to hand in with a claim'),
});

export const budgetLevel = z.object({
  budgetCents: cents,
  spentCents: cents,
  lines: z.number().int(),
  failuresAvoided: range,
  avoidedCents: cents,
  chanceOfLoss: z.number(),
  unplannedP90Cents: cents,
});
export type BudgetLevelShown = z.infer<typeof budgetLevel>;

/** The budget case, for people and for programs. */
export const budgetDocument = z.object({
  amountCents: cents,
  months: z.number().int(),
  gap: z.number(),
  greedyLossCents: cents.describe('what picking by ratio of saving to cost would lose'),
  chosen: z.array(budgetLine),
  leftAlone: z.array(leftUnit),
  failuresAvoided: range,
  unplannedCents: z.object({ mid: z.number().int(), p90: z.number().int() }),
  chanceOfLoss: z.number(),
  valueOfNextThousandCents: cents,
  valueOfLastThousandCents: cents,
  nextThousandCents: centsRange
    .nullable()
    .describe('null: the best plan for a thousand more or less is not proved'),
  lastThousandCents: centsRange.nullable(),
  asOf: isoDate,
  currency: z.string(),
  modelVersion: z.string(),
  seed: z.number().int(),
  draws: z.number().int(),
  units: z.number().int(),
  records: z.number().int(),
  newestRecordOn: isoDate.nullable(),
  spentCents: cents,
  worthwhileCents: cents,
  failuresWithout: range,
  failuresWith: range,
  unplannedWithoutCents: z.object({ mid: z.number().int(), p90: z.number().int() }),
  savingCents: centsRange,
  waitingMonthCents: centsRange.describe('of the whole plan'),
  byMonth: z.array(
    z.object({
      plannedCents: cents,
      unplannedCents: cents,
      unplannedP90Cents: cents,
      unplannedWithoutCents: cents,
    }),
  ),
  levels: z.array(budgetLevel),
  tornado: z.array(
    z.object({
      cause: z.string(),
      words: z.string(),
      swing: z.number(),
      atLowCents: cents,
      atHighCents: cents,
    }),
  ),
  assumptions: z.array(usedAssumption),
  filledCosts: z.array(z.object({ words: z.string(), units: z.number().int() })),
  covered: z.array(coveredUnit),
  notes: z.array(z.string()),
  ownDataShare: z
    .number()
    .describe("share of what is known of the level of failures that is the fleet's own"),
  ownFailures: z.number(),
  basis: z.string(),
});
export type BudgetDocument = z.infer<typeof budgetDocument>;
