import { z } from 'zod';
import { assessment, oilAssessment, unitAssessment } from './assessment.ts';

const wear = unitAssessment.shape;

/** One unit as a line of a list: what is compared, sorted and counted; the unit's page has the rest. */
export const unitLine = z.object({
  unitNumber: wear.unitNumber,
  call: wear.call,
  site: wear.site,
  dutyName: wear.dutyName,
  engineFamily: wear.engineFamily,
  odometerKm: wear.odometerKm,
  idleShare: z.number().nullable().meta({ unit: 'share' }),
  idleInferred: z.boolean(),
  reason: z.string().describe('the most urgent reason for the call'),
  furtherReasons: z.number().int(),
  dueReason: wear.dueReason,
  oil: oilAssessment
    .pick({ governingLimit: true, dueOn: true, dueOnEarliest: true, dueOnLatest: true })
    .nullable(),
  sludge: wear.sludge,
  chain: wear.chain,
  phaser: wear.phaser,
  failure: z.object({ probability: z.number(), low: z.number(), high: z.number() }).nullable(),
  notKnown: wear.notKnown,
  nextStep: wear.nextStep,
});
export type UnitLine = z.infer<typeof unitLine>;

/** The fleet as lists show it: the assessment without what only a unit's own page needs. */
export const fleetList = assessment.extend({ units: z.array(unitLine) });
export type FleetList = z.infer<typeof fleetList>;
