import { z } from 'zod';
import { asOfQuery } from './asOfQuery.ts';
import { calls } from './assessment.ts';
import { isoDate } from './day.ts';
import { findingKinds } from './finding.ts';
import { looksEndpoint } from './looksEndpoint.ts';

const ranged = z.object({ value: z.number(), low: z.number(), high: z.number() });
const number = (unit: string) => z.number().nullable().meta({ unit });

/** What the desk needs to know of one unit to weigh its signs. */
export const deskUnit = z.object({
  unitNumber: z.string(),
  engineFamily: z.string().nullable(),
  site: z.string().nullable(),
  call: z.enum(calls),
  asOf: isoDate,
  inServiceOn: isoDate.nullable(),
  odometerKm: number('km'),
  interference: z.boolean().nullable(),
  drive: z.object({ pitchMm: z.number(), camTeeth: z.number(), tightStrandMm: z.number() }).nullable(),
  chainLimit: z
    .object({ percent: z.number(), basis: z.enum(['maker', 'general', 'assumed']), words: z.string() })
    .nullable(),
  now: z.object({
    day: z.number().int(),
    sludge: ranged.nullable(),
    chainPercent: ranged.nullable(),
    phaserShare: ranged.nullable(),
  }),
  stops: z.array(z.string()),
  renewals: z
    .array(z.object({ on: isoDate, part: z.string() }))
    .describe('parts that were renewed or cleaned: a finding from before speaks of the old part'),
});
export type DeskUnit = z.infer<typeof deskUnit>;

/** One thing that was seen or measured, as it will stand in the record. */
export const deskFinding = z.object({
  finding: z.enum(findingKinds),
  value: z.string().trim().min(1).max(200),
  bank: z.enum(['1', '2']).nullable().default(null),
  soakH: z.number().min(0).max(10_000).nullable().default(null).meta({ unit: 'h' }),
  engineRpm: z.number().min(0).max(10_000).nullable().default(null).meta({ unit: '1/min' }),
  oilTemperatureC: z.number().min(-60).max(250).nullable().default(null).meta({ unit: '°C' }),
});
export type DeskFinding = z.infer<typeof deskFinding>;

/** What a technician keeps with a unit. */
export const deskEntry = z.object({
  technician: z.string().trim().min(2).max(100).describe('name of the person who found it'),
  foundOn: isoDate.optional().describe('default: the day that the store stands at'),
  odometerKm: z.number().min(0).max(5e6).nullable().default(null).meta({ unit: 'km' }),
  codes: z.array(z.string().trim().min(1).max(40)).max(40).default([]),
  findings: z.array(deskFinding).max(20).default([]),
  note: z.string().trim().max(500).nullable().default(null),
  cleared: z
    .string()
    .trim()
    .max(500)
    .nullable()
    .default(null)
    .describe('ends what stands against driving: what was checked'),
  confirmed: z
    .array(z.enum(['phase_geometry', 'before_renewal']))
    .default([])
    .describe('questions that were answered with yes'),
});
export type DeskEntry = z.infer<typeof deskEntry>;

/** Something that has to be answered before an entry is kept. */
export const deskQuestion = z.object({ field: z.string(), code: z.string(), message: z.string() });
export type DeskQuestion = z.infer<typeof deskQuestion>;

/** One photo of a finding; its picture stands at /api/photos/ID. */
export const photo = z.object({
  id: z.number().int(),
  finding: z.number().int(),
  type: z.enum(['image/jpeg', 'image/png', 'image/webp']),
  bytes: z.number().int(),
  addedBy: z.string(),
  addedAt: z.string(),
});
export type Photo = z.infer<typeof photo>;

/** Endpoints of the symptom desk, of findings kept with a unit, and of their photos. */
export const deskEndpoints = {
  ...looksEndpoint,
  desk: {
    method: 'get',
    path: '/api/desk',
    summary: 'Tables and units that the symptom desk works with in the browser',
    response: z.object({
      asOf: isoDate,
      table: z.unknown().describe('chances of signs by cause, as in the catalog'),
      faultCodes: z.array(z.unknown()).describe('fault codes of the catalog'),
      coefficients: z.record(z.string(), z.number()),
      units: z.array(
        z.object({
          unitNumber: z.string(),
          site: z.string().nullable(),
          engineFamily: z.string().nullable(),
          call: z.enum(calls),
        }),
      ),
    }),
  },
  deskUnit: {
    method: 'get',
    path: '/api/units/:unitNumber/desk',
    summary: 'What the symptom desk weighs of one unit: engine, wear now, what stands against driving',
    query: asOfQuery,
    response: deskUnit,
  },
  keepFindings: {
    method: 'post',
    path: '/api/units/:unitNumber/findings',
    summary:
      'Keeps what a named technician found with the unit, as a batch of its own that can be taken back',
    body: deskEntry,
    response: z.object({
      batch: z.string(),
      kept: z.array(
        z.object({ kind: z.enum(['findings', 'codes']), id: z.number().int(), text: z.string() }),
      ),
      messages: z.array(z.string()),
    }),
  },
  photos: {
    method: 'get',
    path: '/api/units/:unitNumber/photos',
    summary: 'Photos of the findings of one unit, newest first',
    response: z.object({ photos: z.array(photo) }),
  },
  addPhoto: {
    method: 'post',
    path: '/api/findings/:finding/photos',
    summary: 'Attaches a photo (the request body: JPEG, PNG or WebP, at most 8 MB) to a finding',
    query: z.object({ addedBy: z.string().trim().min(2).max(100) }),
    response: photo,
  },
  removePhoto: {
    method: 'post',
    path: '/api/photos/:photo/removal',
    summary: 'Removes a photo',
    body: z.object({ removedBy: z.string().trim().min(2).max(100) }),
    response: z.object({ removed: z.number().int() }),
  },
} as const;
