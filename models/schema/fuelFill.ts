import { z } from 'zod';
import { commonFields, quantity, requiredDay, requiredText, text } from './fields.ts';

/** One fill of fuel. */
export const fuelFill = z.object({
  unitNumber: requiredText(),
  filledOn: requiredDay(),
  odometerKm: quantity('km', { min: 0, max: 5e6 }),
  fuelL: quantity('L', { min: 0, max: 3000 }),
  fuel: text(),
  site: text(),
  ...commonFields,
});
export type FuelFill = z.infer<typeof fuelFill>;
