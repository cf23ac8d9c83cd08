import { z } from 'zod';
import { choice, commonFields, flag, money, quantity, requiredText, text } from './fields.ts';

/** An engine family: what the maker asks for, how its timing drive is built, what a renewal costs. */
export const engine = z.object({
  engineFamily: requiredText(),
  displacementL: quantity('L', { min: 0.2, max: 30 }),
  fuelSystem: choice(['PFI', 'GDI', 'TGDI', 'diesel', 'gas']),
  sumpL: quantity('L', { min: 1, max: 100 }),
  requiredGrade: text(),
  requiredCategory: text(),
  bookIntervalKm: quantity('km', { min: 500, max: 200_000 }),
  bookIntervalMonths: quantity('months', { min: 1, max: 60 }),
  hoursLimitH: quantity('h', { min: 20, max: 5000 }),
  timingDrive: choice(['chain', 'silent_chain', 'belt', 'wet_belt', 'gear']),
  chainPitchMm: quantity('mm', { min: 3, max: 30 }),
  camSprocketTeeth: quantity('count', { min: 10, max: 120 }),
  tightStrandMm: quantity('mm', { min: 20, max: 3000 }),
  phasers: quantity('count', { min: 0, max: 8 }),
  interference: flag(),
  plannedHours: quantity('h', { min: 0, max: 500 }),
  plannedPartsCostCents: money('planned_parts_cost'),
  unplannedCostCents: money('unplanned_cost'),
  unplannedDowntimeDays: quantity('d', { min: 0, max: 400 }),
  bookSevereIntervalKm: quantity('km', { min: 500, max: 200_000 }),
  bookSevereIntervalMonths: quantity('months', { min: 1, max: 60 }),
  crankSprocketTeeth: quantity('count', { min: 8, max: 80 }),
  chainLimitPercent: quantity('%', { min: 0.05, max: 5 }),
  plannedDowntimeDays: quantity('d', { min: 0, max: 400 }),
  downtimeCostPerDayCents: money('downtime_cost_per_day'),
  ...commonFields,
});
export type Engine = z.infer<typeof engine>;
