import { z } from 'zod';
import { isoDate } from './day.ts';
import { range } from './range.ts';

const cents = z.number().int().meta({ unit: 'cents' });

/** A budget case of a day in the past beside what the records say happened since. */
export const budgetCheck = z.object({
  fromOn: isoDate.describe('the day of the case'),
  untilOn: isoDate.describe('end of its months, or today where that is earlier'),
  currency: z.string(),
  amountCents: cents,
  months: z.number().int(),
  whole: z.boolean().describe('all months of the case are over'),
  said: z.object({
    failuresWithout: range,
    failuresWith: range,
    unplannedWithoutCents: cents.describe('of the months that are over, everything run'),
    unplannedWithCents: cents.describe('of the months that are over, under the plan'),
    plannedCents: cents.describe('of the months that are over, under the plan'),
  }),
  happened: z.object({
    failures: z.number().int().describe('units in the case with work that followed a failure'),
    unplannedCents: cents,
    plannedCents: cents.describe('renewals and repairs recorded as planned'),
    withoutCost: z.number().int().describe('of these rows without a cost; they add nothing'),
  }),
  units: z.array(
    z.object({
      unitNumber: z.string(),
      said: z.enum(['renew', 'look', 'clean', 'leave']),
      failedOn: isoDate.nullable(),
      renewedOn: isoDate.nullable().describe('planned work of a renewal or repair'),
    }),
  ),
  notes: z.array(z.string()),
});
export type BudgetCheck = z.infer<typeof budgetCheck>;
