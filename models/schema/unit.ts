import { z } from 'zod';
import { choice, commonFields, day, quantity, requiredText, text } from './fields.ts';

/** A unit of the fleet. Identity is the number with its in-service span, and the VIN where known. */
export const unit = z.object({
  unitNumber: requiredText(),
  vin: text(),
  description: text(),
  site: text(),
  duty: text(),
  engineFamily: text(),
  inServiceOn: day(),
  inServiceOdometerKm: quantity('km', { min: 0, max: 5e6 }),
  plannedDisposalOn: day(),
  status: choice(['active', 'retired']),
  powertrain: choice(['engine', 'hybrid']),
  acquiredOn: day(),
  acquiredOdometerKm: quantity('km', { min: 0, max: 5e6 }),
  disposedOn: day(),
  disposalReason: text(),
  warrantyUntilOn: day(),
  warrantyUntilKm: quantity('km', { min: 0, max: 5e6 }),
  ...commonFields,
});
export type Unit = z.infer<typeof unit>;
