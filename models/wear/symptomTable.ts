import { z } from 'zod';
import { evidenceKind } from '../schema/coefficient.ts';

/** What may be behind a complaint, in the order in which a shop asks. */
export const symptomCauses = [
  'oil_level',
  'grade',
  'ventilation',
  'thermostat',
  'pressure',
  'wiring',
  'solenoid',
  'phaser',
  'chain',
] as const;
export type SymptomCause = (typeof symptomCauses)[number];

/** The signs that the desk weighs. */
export const symptomSigns = [
  'correlation_code',
  'phaser_code',
  'circuit_code',
  'crank_code',
  'pressure_code',
  'rattle_short',
  'rattle_long',
  'pressure_low',
  'screen_blocked',
  'level_low',
  'grade_wrong',
  'ventilation_fault',
  'thermostat_open',
  'phase_high',
  'wiring_fault',
] as const;
export type SymptomSign = (typeof symptomSigns)[number];

const chance = z.number().gt(0).lt(1);
const byCause = z.record(z.enum(symptomCauses), chance);

/** The table of chances as it stands in the catalog. */
export const symptomTable = z.object({
  title: z.string(),
  kind: evidenceKind,
  source: z.string(),
  /** how far each chance may be off, as standard deviation of its log-odds */
  spreadLogOdds: z.number().gt(0).lt(3),
  causes: z.array(z.object({ id: z.enum(symptomCauses), label: z.string(), prior: chance })),
  signs: z.array(z.object({ id: z.enum(symptomSigns), label: z.string(), chance: byCause })),
  checks: z.array(
    z.object({
      id: z.string(),
      label: z.string(),
      /** the sign that the check settles */
      sign: z.enum(symptomSigns),
      minutes: z.number().gt(0),
      positive: byCause,
    }),
  ),
});
export type SymptomTable = z.infer<typeof symptomTable>;
