import { z } from 'zod';

/** Name of a kept column map. */
export const columnMapName = z.string().trim().min(1).max(100);

/** A column map that a person confirmed and named; files of the same layout are read by it. */
export const keptColumnMap = z.object({
  name: z.string(),
  kind: z.string(),
  headers: z.array(z.string()).describe('the column names of the layout it is for'),
  columns: z.record(
    z.string(),
    z.object({
      field: z.string().nullable(),
      unit: z.string().nullable().optional(),
      dateOrder: z.enum(['ymd', 'dmy', 'mdy']).optional(),
      decimal: z.enum(['.', ',']).optional(),
    }),
  ),
  madeAt: z.string(),
  madeBy: z.string(),
});
export type KeptColumnMap = z.infer<typeof keptColumnMap>;

/** Endpoints of kept column maps. */
export const columnMapEndpoints = {
  columnMaps: {
    method: 'get',
    path: '/api/column-maps',
    summary: 'Column maps that people confirmed, by name',
    response: z.object({ maps: z.array(keptColumnMap) }),
  },
  renameColumnMap: {
    method: 'post',
    path: '/api/column-maps/rename',
    summary: 'Gives a kept column map another name',
    body: z.object({ name: columnMapName, to: columnMapName }),
    response: z.object({ name: z.string() }),
  },
  deleteColumnMap: {
    method: 'post',
    path: '/api/column-maps/delete',
    summary: 'Forgets a kept column map; records that came in by it stay',
    body: z.object({ name: columnMapName }),
    response: z.object({ name: z.string() }),
  },
} as const;
