import { z } from 'zod';
import { isoDate } from './day.ts';

const cents = z.number().int().meta({ unit: 'cents' });
const count = z.number().int();

/** Money of a set of service rows by what it went to. */
export const spendSums = z.object({
  rows: count,
  oilCents: cents.describe('oil changes, filters and top-ups'),
  plannedCents: cents.describe('renewals and repairs whose outcome is planned'),
  unplannedCents: cents.describe('work whose outcome is failed'),
  unsaidCents: cents.describe('renewals and repairs whose outcome is not recorded'),
  withoutCost: count.describe('rows without a cost; they count as nothing in the sums'),
});
export type SpendSums = z.infer<typeof spendSums>;

export const spendKeys = ['month', 'site', 'duty', 'engineFamily'] as const;
export type SpendKey = (typeof spendKeys)[number];

/** What was spent, as the service records say. */
export const spendDocument = z.object({
  asOf: isoDate,
  currency: z.string(),
  total: spendSums,
  groups: z.array(
    z.object({ by: z.enum(spendKeys), rows: z.array(z.object({ name: z.string(), ...spendSums.shape })) }),
  ),
  paidBy: z.array(z.object({ name: z.string(), rows: count, costCents: cents, withoutCost: count })),
  notes: z.array(z.string()),
});
export type SpendDocument = z.infer<typeof spendDocument>;
