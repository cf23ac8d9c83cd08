import { z } from 'zod';
import { asOfQuery } from './asOfQuery.ts';

const cents = () => z.number().int().meta({ unit: 'cents' });
const action = z.enum(['run', 'clean', 'renew']);

/** What is worth looking at on a unit before anything is replaced, and why its wear is as it is. */
export const unitLooks = z.object({
  unitNumber: z.string(),
  currency: z.string(),
  states: z
    .object({ restricted: z.number(), worn: z.number(), neither: z.number() })
    .nullable()
    .describe('chances: oil control screen restricted, chain or phaser worn, neither'),
  months: z.number().int().nullable().describe('months over which costs are judged'),
  actionNow: action.nullable().describe('the cheapest action without a look'),
  perfectCents: cents().nullable().describe('worth of knowing the state for certain'),
  looks: z.array(
    z.object({
      look: z.enum(['screen', 'cover', 'phase']),
      words: z.string(),
      lookCents: cents().describe('with the time that the unit stands for it'),
      lookHours: z.number().meta({ unit: 'h' }),
      worthCents: cents().describe('before its own cost; 0 = no result changes the action'),
      netCents: cents(),
      findings: z.array(z.object({ finding: z.string(), chance: z.number(), action })),
    }),
  ),
  reason: z.string().nullable().describe('why there is no ranking'),
  covered: z.array(z.string()).describe('a warranty that pays, in words'),
  assumptions: z.array(z.string()).describe('costs that were filled from defaults'),
  wearSentences: z.array(z.string()),
  causes: z
    .array(z.object({ state: z.enum(['sludge', 'chain', 'phaser']), cause: z.string(), amount: z.number() }))
    .describe('what each cause added, in the state’s own unit; they add up to the state'),
  remedies: z.array(z.string()).describe('what would have changed the states most'),
});
export type UnitLooks = z.infer<typeof unitLooks>;

/** The endpoint of looks and reasons of wear. */
export const looksEndpoint = {
  looks: {
    method: 'get',
    path: '/api/units/:unitNumber/looks',
    summary: 'Looks worth taking before anything is replaced, and why the wear is so',
    query: asOfQuery,
    response: unitLooks,
  },
} as const;
