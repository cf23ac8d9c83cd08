import type { z } from 'zod';
import { code } from './code.ts';
import { engine } from './engine.ts';
import { finding } from './finding.ts';
import { fuelFill } from './fuelFill.ts';
import { reading } from './reading.ts';
import { sample } from './sample.ts';
import { service } from './service.ts';
import { blackout, stock, technician } from './shopResources.ts';
import { site } from './site.ts';
import { unit } from './unit.ts';

/** The kinds of records, named like the file stems of the own layout, in the order in which one may rest on another. */
export const recordKinds = [
  'engines',
  'sites',
  'units',
  'technicians',
  'stock',
  'readings',
  'fuel',
  'service',
  'samples',
  'findings',
  'codes',
  'blackouts',
] as const;
export type RecordKind = (typeof recordKinds)[number];

interface KindOf {
  readonly schema: z.ZodObject;
  /** the field that dates the record; null for master data */
  readonly dateField: string | null;
  /** fields that together say which thing a row is about, for finding exact repeats */
  readonly keyFields: readonly string[];
}

/** Each kind with its schema, dating field and key. */
export const kindTable: Readonly<Record<RecordKind, KindOf>> = {
  engines: { schema: engine, dateField: null, keyFields: ['engineFamily'] },
  sites: { schema: site, dateField: null, keyFields: ['site'] },
  units: { schema: unit, dateField: 'inServiceOn', keyFields: ['unitNumber', 'inServiceOn'] },
  technicians: { schema: technician, dateField: null, keyFields: ['technician', 'awayFrom'] },
  stock: { schema: stock, dateField: null, keyFields: ['item', 'site'] },
  readings: { schema: reading, dateField: 'readOn', keyFields: ['unitNumber', 'readOn'] },
  fuel: { schema: fuelFill, dateField: 'filledOn', keyFields: ['unitNumber', 'filledOn'] },
  service: { schema: service, dateField: 'servicedOn', keyFields: ['unitNumber', 'servicedOn'] },
  samples: { schema: sample, dateField: 'sampledOn', keyFields: ['unitNumber', 'sampledOn'] },
  findings: { schema: finding, dateField: 'foundOn', keyFields: ['unitNumber', 'foundOn', 'finding'] },
  codes: { schema: code, dateField: 'seenOn', keyFields: ['unitNumber', 'seenOn', 'code'] },
  blackouts: { schema: blackout, dateField: null, keyFields: ['unitNumber', 'from', 'to'] },
};
