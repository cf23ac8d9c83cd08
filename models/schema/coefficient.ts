import { z } from 'zod';

/** Where a value comes from; shown beside every use. */
export const evidenceKind = z.enum(['standard', 'paper', 'common practice', 'assumption']);

/** One constant of a model: never written in code, always in `data/catalog`. */
export const coefficient = z.object({
  id: z.string().describe('dotted name, e.g. oil.base_number_life'),
  label: z.string().describe('the plain name shown to people'),
  symbol: z.string().optional().describe('the symbol used in the source'),
  value: z.number(),
  unit: z.string().describe('unit of the value; "1" for a pure number'),
  low: z.number().optional().describe('lower end of the plausible range'),
  high: z.number().optional().describe('upper end of the plausible range'),
  logSd: z.number().optional().describe('standard deviation of the logarithm when learned from evidence'),
  kind: evidenceKind,
  source: z.string().describe('published source, "common practice, no source" or "value from memory"'),
  note: z.string().optional(),
});
export type Coefficient = z.infer<typeof coefficient>;
export const coefficientFile = z.object({ title: z.string(), coefficients: z.array(coefficient) });

/** Values by id, as the models take them: `coefficients['oil.base_number_life']`. */
export type Coefficients = Readonly<Record<string, number>>;

/** Collapses catalog files to values by id. Throws on an id that stands twice. */
export function coefficientValues(files: readonly z.infer<typeof coefficientFile>[]): Coefficients {
  const values: Record<string, number> = {};
  for (const file of files)
    for (const entry of file.coefficients) {
      if (entry.id in values) throw new Error(`coefficient ${entry.id} stands twice in the catalog`);
      values[entry.id] = entry.value;
    }
  return values;
}
