import { z } from 'zod';
import { asOfQuery } from './asOfQuery.ts';
import { assessment, calls } from './assessment.ts';
import { coefficient } from './coefficient.ts';
import { isoDate } from './day.ts';
import { fleetList } from './fleetList.ts';
import { deskEndpoints } from './deskEndpoints.ts';
import { promiseEndpoints } from './promise.ts';
import { verification } from './intake.ts';
import { intakeEndpoints } from './intakeEndpoints.ts';
import { moneyEndpoints } from './moneyEndpoints.ts';
import { hindcastEndpoints } from './hindcastEndpoints.ts';
import { planEndpoints } from './planEndpoints.ts';
import { sampleEndpoints } from './sampleEndpoints.ts';
import { settings } from './settings.ts';
import { workTextEndpoints } from './workTextEndpoints.ts';
import { shopEndpoints } from './shopEndpoints.ts';
import { recordLink, unitStory } from './story.ts';
import { unitEndpoints } from './unitEndpoints.ts';

/** What one endpoint takes and answers; the same schemas check requests and make the OpenAPI document. */
export interface Endpoint {
  readonly method: 'get' | 'post' | 'put';
  readonly path: string;
  readonly summary: string;
  readonly query?: z.ZodObject;
  readonly body?: z.ZodType;
  readonly response: z.ZodType;
}

/** Which store is shown and how fresh it is. */
export const stateResponse = z.object({
  store: z.enum(['demo', 'own']),
  ownExists: z.boolean(),
  revision: z.number().int(),
  asOf: isoDate,
  newestRecordOn: isoDate.nullable(),
  units: z.number().int(),
  records: z.number().int(),
  heldRows: z.number().int(),
  version: z.string(),
  modelVersion: z.string(),
  settings,
});
export type StateResponse = z.infer<typeof stateResponse>;

/** A unit whose call or governing limit changed, and the records that came in between. */
export const move = z.object({
  unitNumber: z.string(),
  from: z.enum(calls).nullable(),
  to: z.enum(calls).nullable(),
  fromLimit: z.string().nullable(),
  toLimit: z.string().nullable(),
  because: z.array(recordLink),
});
export type Move = z.infer<typeof move>;

/** One record as it came: header, cells, and the fields kept of it. */
export const recordResponse = z.object({
  kind: z.string(),
  id: z.number().int(),
  batch: z.string(),
  file: z.string(),
  line: z.number().int(),
  header: z.array(z.string()),
  cells: z.array(z.string()),
  fields: z.record(z.string(), z.unknown()),
});

/** The models' page: every coefficient with unit, source and kind. */
export const methodResponse = z.object({
  modelVersion: z.string(),
  groups: z.array(z.object({ title: z.string(), coefficients: z.array(coefficient) })),
  sources: z.array(
    z.object({ id: z.string(), title: z.string(), kind: z.string(), note: z.string().optional() }),
  ),
  cautions: z.array(z.string()),
});
export type MethodResponse = z.infer<typeof methodResponse>;

/** Sums by site, duty and engine family. */
export const rollupResponse = z.object({
  groups: z.array(
    z.object({
      by: z.enum(['site', 'duty', 'engineFamily']),
      rows: z.array(
        z.object({
          name: z.string(),
          units: z.number().int(),
          meanKmPerDay: z.number().nullable(),
          meanIdleShare: z.number().nullable(),
          pastDue: z.number().int(),
          meanSludge: z.number().nullable(),
          expectedFailures: z.number().nullable(),
        }),
      ),
    }),
  ),
});
export type RollupResponse = z.infer<typeof rollupResponse>;

/** Every endpoint by name. */
export const endpoints = {
  state: {
    method: 'get',
    path: '/api/state',
    summary: 'Which store is shown and how fresh it is',
    response: stateResponse,
  },
  assessment: {
    method: 'get',
    path: '/api/assessment',
    summary: 'Estimates and calls for every unit',
    query: asOfQuery,
    response: assessment,
  },
  fleetList: {
    method: 'get',
    path: '/api/fleet-list',
    summary: 'The assessment as lists show it: one short line a unit',
    query: asOfQuery,
    response: fleetList,
  },
  moves: {
    method: 'get',
    path: '/api/moves',
    summary: 'Units whose call or governing limit changed over the last days',
    query: z.object({ days: z.coerce.number().int().min(1).max(365).optional() }),
    response: z.object({ since: isoDate, asOf: isoDate, moves: z.array(move) }),
  },
  unit: {
    method: 'get',
    path: '/api/units/:unitNumber',
    summary: 'Everything said of one unit, with records and reasons',
    query: asOfQuery,
    response: unitStory,
  },
  whatIf: {
    method: 'get',
    path: '/api/units/:unitNumber/inputs',
    summary: 'What the models need to work on one unit in the browser',
    query: asOfQuery,
    response: z.record(z.string(), z.unknown()),
  },
  ...unitEndpoints,
  ...promiseEndpoints,
  ...sampleEndpoints,
  ...hindcastEndpoints,
  ...moneyEndpoints,
  ...deskEndpoints,
  ...shopEndpoints,
  ...planEndpoints,
  record: {
    method: 'get',
    path: '/api/records/:kind/:id',
    summary: 'One record as it came in',
    response: recordResponse,
  },
  rollups: {
    method: 'get',
    path: '/api/rollups',
    summary: 'Sums by site, duty and engine family',
    query: asOfQuery,
    response: rollupResponse,
  },
  ...intakeEndpoints,
  ...workTextEndpoints,
  verify: {
    method: 'get',
    path: '/api/verify',
    summary: 'Whether the store is whole and every row is accounted for',
    response: verification,
  },
  method: {
    method: 'get',
    path: '/api/method',
    summary: 'Models, coefficients, sources, cautions',
    response: methodResponse,
  },
  settings: {
    method: 'get',
    path: '/api/settings',
    summary: 'Rules and measures of the shop',
    response: settings,
  },
  saveSettings: {
    method: 'put',
    path: '/api/settings',
    summary: 'Changes rules and measures of the shop',
    body: settings.partial(),
    response: settings,
  },
  beginOwn: {
    method: 'post',
    path: '/api/own',
    summary: 'Begins own records; the demo fleet stays in its own store',
    body: z.object({}),
    response: stateResponse,
  },
} as const satisfies Record<string, Endpoint>;

export type EndpointName = keyof typeof endpoints;
