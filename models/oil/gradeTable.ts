import { z } from 'zod';

/** The table of SAE J300 as `data/catalog/oil-grades.json` holds it, and what oils of a grade usually measure. */
export const gradeFile = z.object({
  title: z.string(),
  source: z.string(),
  kind: z.string(),
  winter: z
    .array(
      z.object({
        grade: z.number().describe('the number before the W'),
        crankingMaxMpaS: z.number().describe('cold cranking, at crankingC'),
        crankingC: z.number(),
        pumpingMaxMpaS: z.number().describe('pumping without yield stress, at pumpingC'),
        pumpingC: z.number(),
        kv100Min: z.number(),
      }),
    )
    .min(1),
  operating: z
    .array(
      z.object({
        grade: z.number(),
        kv100Min: z.number(),
        kv100Below: z.number(),
        hthsMinMpaS: z.number().describe('high shear at 150 °C'),
        hthsMinWithWinterMpaS: z
          .object({ winterUpTo: z.number(), hthsMinMpaS: z.number() })
          .optional()
          .describe('a lower minimum for multigrades with a winter grade up to this one'),
      }),
    )
    .min(1),
  assumedGrade: z.string().describe('grade assumed where neither the fill nor the engine names one'),
  typicalSource: z.string(),
  typicalKv100: z.array(z.object({ grade: z.string(), kv100: z.number() })),
});
export type GradeTable = z.infer<typeof gradeFile>;
/** One winter row of the table. */
export type WinterRow = GradeTable['winter'][number];
/** One operating row of the table. */
export type OperatingRow = GradeTable['operating'][number];
