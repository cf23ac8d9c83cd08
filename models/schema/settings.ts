import { z } from 'zod';

/** Rules and measures of the shop that people may change; each has a stated default. */
export const settings = z.object({
  currency: z.string().length(3).default('USD').describe('ISO 4217'),
  measures: z.enum(['metric', 'us']).default('metric').describe('units of measure on screen'),
  firstDayOfWeek: z.enum(['monday', 'sunday']).default('monday'),
  horizonDays: z.number().int().min(7).max(1825).default(365).meta({ unit: 'd' }),
  bookWithinDays: z.number().int().min(0).max(90).default(14).meta({ unit: 'd' }),
  bookFailureProbability: z.number().min(0).max(1).default(0.2).meta({ unit: 'share' }),
  planWithinWeeks: z.number().int().min(1).max(52).default(13),
  planFailureProbability: z.number().min(0).max(1).default(0.08).meta({ unit: 'share' }),
  watchFailureProbability: z.number().min(0).max(1).default(0.03).meta({ unit: 'share' }),
  watchRecordQuality: z.number().min(0).max(1).default(0.5).meta({ unit: 'share' }),
  bookWeeksOfCapacity: z.number().min(0).max(52).default(3),
  bookPastChance: z.number().min(0).max(1).default(0.8).meta({ unit: 'share' }),
  oilServiceHours: z.number().min(0.1).max(24).default(1).meta({ unit: 'h' }),
  oilShareOfShopHours: z.number().min(0.01).max(1).default(0.3).meta({
    unit: 'share',
    note: 'share of bay hours that is there for oil and timing work; the rest is for all other repairs; assumption',
  }),
  idleEquivalentKm: z
    .number()
    .min(10)
    .max(100)
    .default(45)
    .meta({ unit: 'km', note: 'distance that one idle hour stands for; 40–53 km is common practice' }),
});
export type Settings = z.infer<typeof settings>;

/** Every setting at its default. */
export const defaultSettings: Settings = settings.parse({});
