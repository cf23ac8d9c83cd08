import { z } from 'zod';

/** A number with its 80 % range. */
export const range = z.object({ low: z.number(), mid: z.number(), high: z.number() }).describe('80 % range');

/** Whole cents with their 80 % range. */
export const centsRange = z
  .object({ low: z.number().int(), mid: z.number().int(), high: z.number().int() })
  .meta({ unit: 'cents' })
  .describe('80 % range');
