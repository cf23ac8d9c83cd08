import { z } from 'zod';
import { commonFields, quantity, requiredDay, requiredText, share } from './fields.ts';

/** Meter values of one day; all meters are cumulative. */
export const reading = z.object({
  unitNumber: requiredText(),
  readOn: requiredDay(),
  odometerKm: quantity('km', { min: 0, max: 5e6 }),
  engineHoursH: quantity('h', { min: 0, max: 200_000 }),
  idleHoursH: quantity('h', { min: 0, max: 200_000 }),
  ptoHoursH: quantity('h', { min: 0, max: 200_000 }),
  fuelL: quantity('L', { min: 0, max: 5e6 }),
  starts: quantity('count', { min: 0, max: 1e6 }).describe('engine starts since the reading before'),
  shortTripShare: share(),
  towingShare: share(),
  ambientC: quantity('°C', { min: -60, max: 60 }),
  ...commonFields,
});
export type Reading = z.infer<typeof reading>;
