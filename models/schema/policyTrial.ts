import { z } from 'zod';
import { isoDate } from './day.ts';
import { centsRange, range } from './range.ts';

const rhythm = z.object({
  changesPerMonth: range,
  changeCents: centsRange.describe('all changes over the months'),
  failures: range,
  failureCents: centsRange,
  byMonth: z.array(range).describe('oil changes in each month'),
});

/** A drain interval tried on the units of a duty group before anyone adopts it. */
export const policyTrialDocument = z.object({
  duty: z.string(),
  intervalKm: z.number().int().meta({ unit: 'km' }),
  asOf: isoDate,
  currency: z.string(),
  months: z.number().int(),
  draws: z.number().int(),
  seed: z.number().int(),
  units: z.number().int(),
  now: rhythm,
  then: rhythm,
  failuresAvoided: range,
  savingCents: centsRange.describe('changes and failures together over the months; below 0: it costs'),
  chanceOfLoss: z.number(),
  dueDates: z
    .array(
      z.object({
        unitNumber: z.string(),
        nowOn: isoDate.nullable(),
        thenOn: isoDate.nullable(),
        days: z.number().int().describe('below 0: due sooner').nullable(),
      }),
    )
    .describe('units whose due date moves'),
  keepOwn: z
    .array(z.string())
    .describe('units with an approved longer interval of their own, which they keep'),
  notes: z.array(z.string()),
});
export type PolicyTrialDocument = z.infer<typeof policyTrialDocument>;
