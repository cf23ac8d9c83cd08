import { z } from 'zod';
import { asOfQuery } from './asOfQuery.ts';
import { isoDate } from './day.ts';
import { workKinds } from './service.ts';

const nullableText = z.string().nullable();
const nullableNumber = (unit: string) => z.number().nullable().meta({ unit });

/** A unit as the look-up finds it: by its number or by its VIN. */
export const foundUnit = z.object({
  unitNumber: z.string(),
  vin: nullableText,
  description: nullableText,
  site: nullableText,
  engineFamily: nullableText,
});
export type FoundUnit = z.infer<typeof foundUnit>;

/** One dated line of a unit's history with the place it came from. */
export const historyEntry = z.object({
  on: isoDate,
  kind: z.enum(['service', 'samples', 'findings', 'codes', 'readings']),
  odometerKm: nullableNumber('km'),
  engineHoursH: nullableNumber('h'),
  works: z.array(z.enum(workKinds)).describe('jobs that the service row was read as'),
  words: z.string().describe('the row in its own words'),
  oilGrade: nullableText,
  oilCategory: nullableText,
  oilL: nullableNumber('L'),
  filterChanged: z.boolean().nullable(),
  sinceOilKm: nullableNumber('km').describe('distance since the oil change before, for an oil change'),
  sinceOilDays: nullableNumber('d'),
  shop: nullableText,
  workOrder: nullableText,
  source: z.object({ kind: z.string(), id: z.number().int(), file: z.string(), line: z.number().int() }),
});
export type HistoryEntry = z.infer<typeof historyEntry>;

/** A unit's service history as it is handed to a warranty clerk or a buyer. */
export const unitHistoryDocument = z.object({
  asOf: isoDate,
  unit: foundUnit.extend({
    duty: nullableText,
    inServiceOn: isoDate.nullable(),
    inServiceOdometerKm: nullableNumber('km'),
    disposedOn: isoDate.nullable(),
    source: historyEntry.shape.source,
  }),
  engine: z
    .object({
      displacementL: nullableNumber('L'),
      requiredGrade: nullableText,
      requiredCategory: nullableText,
      bookIntervalKm: nullableNumber('km'),
      bookIntervalMonths: nullableNumber('months'),
      source: historyEntry.shape.source,
    })
    .nullable(),
  entries: z.array(historyEntry).describe('oldest first'),
  oilChanges: z.number().int(),
  longestGap: z
    .object({ from: isoDate, to: isoDate, days: z.number().int() })
    .nullable()
    .describe('longest time between two dated records, or from the last one to now'),
});
export type UnitHistoryDocument = z.infer<typeof unitHistoryDocument>;

/** Endpoints that need only a unit's records, not the assessment. */
export const unitEndpoints = {
  find: {
    method: 'get',
    path: '/api/find',
    summary: 'Units in service by number and VIN, for the look-up',
    response: z.object({ asOf: isoDate, units: z.array(foundUnit) }),
  },
  unitHistory: {
    method: 'get',
    path: '/api/units/:unitNumber/history',
    summary: 'Dated service history of one unit with file and line of every record',
    query: asOfQuery,
    response: unitHistoryDocument,
  },
} as const;
