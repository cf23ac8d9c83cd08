import { z } from 'zod';
import { isoDate } from './day.ts';

/** The day of knowledge and the horizon that a question is asked for. */
export const asOfQuery = z.object({
  asOf: isoDate.optional().describe('what was known on this day; default today, for the demo its last day'),
  horizonDays: z.coerce.number().int().min(7).max(1825).optional(),
});
