import { z } from 'zod';
import { commonFields, quantity, requiredChoice, requiredDay, requiredText, text } from './fields.ts';

export const findingKinds = [
  'screen_blocked_share',
  'cover_view',
  'phase_deviation_crank_deg',
  'start_rattle_s',
  'hot_idle_pressure_kpa',
  'chain_elongation_percent',
  'oil_level_low_l',
  'ventilation_fault',
  'thermostat_open',
  'filter_wrong',
  'coolant_in_oil',
  'cleared',
] as const;
export type FindingKind = (typeof findingKinds)[number];

/** The words of a view under the cover, best first. */
export const coverViews = ['clean', 'light', 'moderate', 'heavy', 'severe'] as const;
export type CoverView = (typeof coverViews)[number];

/**
 * What was seen or measured on the unit. `value` is a number in the unit that the finding's name carries, a word of
 * {@link coverViews} for a cover view, or yes/no. `cleared` is a named technician's finding that ends a stop; the
 * technician's name stands in `value`, what was checked in `note`: kinds of sign named there are ended, others stay.
 */
export const finding = z.object({
  unitNumber: requiredText(),
  foundOn: requiredDay(),
  odometerKm: quantity('km', { min: 0, max: 5e6 }),
  finding: requiredChoice(findingKinds),
  value: text(),
  note: text(),
  bank: text(),
  soakH: quantity('h', { min: 0, max: 10_000 }),
  engineRpm: quantity('1/min', { min: 0, max: 10_000 }),
  oilTemperatureC: quantity('°C', { min: -60, max: 250 }),
  ...commonFields,
});
export type Finding = z.infer<typeof finding>;
