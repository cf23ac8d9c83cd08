import { z } from 'zod';
import { evidenceKind } from '../schema/coefficient.ts';
import type { FuelSystem } from './exposure.ts';

/** What of a used oil is judged; the names of the condition model where there is one. */
export const measurands = [
  'baseNumber',
  'acidNumber',
  'kv100',
  'fuelPercent',
  'sootPercent',
  'oxidation',
  'nitration',
  'waterPercent',
  'ironPpm',
  'copperPpm',
  'leadPpm',
  'aluminiumPpm',
  'siliconPpm',
  'sodiumPpm',
  'potassiumPpm',
  'sulfation',
  'insolublesPercent',
  'dispersancyBlotter',
] as const;
export type Measurand = (typeof measurands)[number];

/** `data/catalog/condemning-limits.json`. */
export const condemningFile = z.object({
  title: z.string(),
  source: z.string(),
  limits: z.array(
    z.object({
      measurand: z.enum(measurands),
      label: z.string(),
      unit: z.string(),
      method: z.string(),
      side: z.enum(['min', 'max']),
      basis: z
        .enum(['absolute', 'share_of_fresh', 'above_fresh', 'share_of_base'])
        .describe('what the value is compared as'),
      caution: z.number(),
      condemn: z.number(),
      fuelSystems: z.array(z.enum(['PFI', 'GDI', 'TGDI', 'diesel', 'gas'])).nullable(),
      kind: evidenceKind,
      source: z.string(),
      note: z.string().optional(),
    }),
  ),
});
export type CondemningLimits = z.infer<typeof condemningFile>['limits'];
export type CondemningLimit = CondemningLimits[number];

/** The limits of a measurand for a fuel system. */
export function limitsFor(
  measurand: Measurand,
  fuelSystem: FuelSystem,
  limits: CondemningLimits,
): readonly CondemningLimit[] {
  return limits.filter(
    (limit) =>
      limit.measurand === measurand && (limit.fuelSystems === null || limit.fuelSystems.includes(fuelSystem)),
  );
}
