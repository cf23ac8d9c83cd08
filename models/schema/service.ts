import { z } from 'zod';
import { choice, commonFields, flag, money, quantity, requiredDay, requiredText, text } from './fields.ts';

/** What a service row can mean; free text is read into these by models/intake. */
export const workKinds = [
  'oil_change',
  'top_up',
  'filter',
  'timing_set',
  'phaser',
  'oil_control_solenoid',
  'tensioner_guides',
  'belt',
  'cam_sensor',
  'crank_sensor',
  'ventilation_valve',
  'thermostat',
  'screen_cleaned',
  'engine',
  'meter_replaced',
  'inspection',
  'other',
] as const;
export type WorkKind = (typeof workKinds)[number];

/** One line of service history. */
export const service = z.object({
  unitNumber: requiredText(),
  servicedOn: requiredDay(),
  odometerKm: quantity('km', { min: 0, max: 5e6 }),
  engineHoursH: quantity('h', { min: 0, max: 200_000 }),
  idleHoursH: quantity('h', { min: 0, max: 200_000 }),
  work: requiredText().describe('free text of the shop, or one of the work kinds'),
  oilGrade: text(),
  oilCategory: text(),
  oilL: quantity('L', { min: 0, max: 200 }),
  filterChanged: flag(),
  costCents: money('cost'),
  shop: text(),
  note: text(),
  outcome: choice(['planned', 'failed']),
  bank: text(),
  partRevision: text(),
  paidBy: text(),
  labourHoursH: quantity('h', { min: 0, max: 1000 }),
  ...commonFields,
});
export type Service = z.infer<typeof service>;
