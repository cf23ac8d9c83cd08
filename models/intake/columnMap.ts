import { z } from 'zod';

/** A saved column map: what the columns of a layout mean, where their names do not say it. */
export const columnMap = z.strictObject({
  columns: z
    .record(
      z.string(),
      z.object({
        field: z.string().nullable(),
        unit: z.string().nullable().optional(),
        decimal: z.enum(['.', ',']).optional(),
        dateOrder: z.enum(['ymd', 'dmy', 'mdy']).optional(),
      }),
    )
    .optional(),
  constants: z.record(z.string(), z.string()).optional(),
  decimal: z.enum(['.', ',']).optional(),
});
export type ColumnMap = z.infer<typeof columnMap>;
