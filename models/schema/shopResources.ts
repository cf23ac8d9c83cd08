import { z } from 'zod';
import { commonFields, day, money, quantity, requiredText, text } from './fields.ts';

/** A person who works in a shop. Skills are separated by `;`. */
export const technician = z.object({
  technician: requiredText(),
  site: text(),
  skills: text(),
  hoursPerDay: quantity('h', { min: 0, max: 24 }),
  awayFrom: day(),
  awayTo: day(),
  ...commonFields,
});
export type Technician = z.infer<typeof technician>;

/** An item on the shelf of a site. */
export const stock = z.object({
  item: requiredText(),
  site: text(),
  onHand: quantity('count', { min: 0 }),
  leadTimeDays: quantity('d', { min: 0, max: 2000 }),
  unitCostCents: money('unit_cost'),
  ...commonFields,
});
export type Stock = z.infer<typeof stock>;

/** Days on which a unit can't be spared: from–to dates, or weekdays (`mon,tue`) in `from`. */
export const blackout = z.object({
  unitNumber: requiredText(),
  from: text(),
  to: text(),
  reason: text(),
  ...commonFields,
});
export type Blackout = z.infer<typeof blackout>;
