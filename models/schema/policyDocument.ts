import { z } from 'zod';
import { isoDate } from './day.ts';

const km = z.number().int().meta({ unit: 'km' });
const cents = z.number().int().meta({ unit: 'cents' });

/** A drain interval that a named person adopted for a duty group. */
export const adoptedPolicy = z.object({
  id: z.number().int(),
  duty: z.string(),
  intervalKm: z.number().meta({ unit: 'km' }),
  adoptedBy: z.string(),
  adoptedOn: isoDate,
  note: z.string().nullable(),
  withdrawnOn: isoDate.nullable(),
  withdrawnBy: z.string().nullable(),
});
export type AdoptedPolicy = z.infer<typeof adoptedPolicy>;

/** The cheapest interval of one duty group. */
export const dutyPolicyShown = z.object({
  duty: z.string(),
  currentIntervalKm: km.nullable(),
  bestIntervalKm: km,
  flatFromKm: km,
  flatToKm: km,
  centsPer1000Km: z.object({ current: cents.nullable(), best: cents, recommended: cents }),
  bookIntervalKm: km.nullable(),
  recommendedIntervalKm: km.describe('the best, but not beyond the book'),
  bestIntervalRangeKm: z.object({ low: km, mid: km, high: km }),
  units: z.number().int(),
  kmPerYear: z.number().int().meta({ unit: 'km' }),
  savingCentsPerYear: cents.nullable().describe('of the recommended interval against today, whole group'),
  categories: z.array(
    z.object({
      category: z.string(),
      bestIntervalKm: km,
      centsPer1000Km: z.object({ current: cents.nullable(), best: cents }),
      savingCentsPer1000Km: cents,
    }),
  ),
  sampling: z.object({
    worthCentsPer1000Km: cents,
    costCentsPer1000Km: cents,
    pays: z.boolean(),
    words: z.string(),
  }),
  curve: z.array(
    z.object({
      intervalKm: z.number(),
      centsPer1000Km: z.number(),
      changeCentsPer1000Km: z.number(),
      wearCentsPer1000Km: z.number(),
    }),
  ),
  notes: z.array(z.string()),
  assumptions: z.array(z.string()),
  adopted: adoptedPolicy.nullable(),
});
export type DutyPolicyShown = z.infer<typeof dutyPolicyShown>;

/** Drain intervals per duty group. */
export const policyDocument = z.object({
  duties: z.array(dutyPolicyShown),
  asOf: isoDate,
  currency: z.string(),
  modelVersion: z.string(),
  notes: z.array(z.string()),
});
export type PolicyDocument = z.infer<typeof policyDocument>;
