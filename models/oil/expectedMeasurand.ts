import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { FuelSystem, OilFill, OilState } from './exposure.ts';

/** Measurands that the condition model gives. */
export const modelledMeasurands = [
  'baseNumber',
  'acidNumber',
  'kv100',
  'fuelPercent',
  'sootPercent',
  'oxidation',
  'nitration',
  'sulfation',
] as const;
export type ModelledMeasurand = (typeof modelledMeasurands)[number];

/**
 * What a laboratory should read for an oil in a given state. Base number is by D2896 (shift the reported value with
 * `comparableBaseNumber`); nitration follows oxidation in the fuel system's ratio; sulfation follows base number lost.
 * @param state from the condition model
 * @param fill the oil put in
 * @returns in the measurand's unit; a state with oxidation 10 in a petrol engine → nitration 5.5 A/cm
 * Source: catalog `oil.nitration_share.*`, `oil.sulfation_*`, engineering judgement.
 */
export function expectedMeasurand(
  state: OilState,
  fill: OilFill,
  measurand: ModelledMeasurand,
  fuelSystem: FuelSystem,
  coefficients: Coefficients,
): number {
  if (measurand === 'nitration')
    return coefficientValue(coefficients, `oil.nitration_share.${fuelSystem}`) * state.oxidation;
  if (measurand === 'sulfation')
    return (
      coefficientValue(coefficients, 'oil.sulfation_fresh') +
      coefficientValue(coefficients, 'oil.sulfation_base') * Math.max(0, fill.baseNumber - state.baseNumber)
    );
  return state[measurand];
}

/** What a laboratory's reading is known to rest on. */
export interface ReadingBasis {
  /** fuel by gas chromatography; base number by a method that is told */
  readonly methodKnown: boolean;
  /** distance on the oil is told */
  readonly sampleKmKnown: boolean;
}

/**
 * Standard deviation of a laboratory's reading, larger where the method or the distance on the oil is not known.
 * Base number 0.5; acid number the larger of 0.3 and 0.16 X (R / 2.77 of D664); viscosity 3 %; fuel 0.5 by gas
 * chromatography, else 1.0; soot 10 %; oxidation 1.5; metals 15 %.
 * @param value reported, in the measurand's unit
 * @param change how far the value lies from that of fresh oil, same unit; 0 where not known: then a missing distance
 * adds its share of the value itself
 * @returns same unit; acid number 5 → 0.8
 * Source: catalog `evidence.*_sd`, `oil.fuel_sd_*`, `oil.metal_relative_sd`: engineering judgement; D664 quoted extract.
 */
export function noiseSd(
  measurand: ModelledMeasurand | 'metal',
  value: number,
  basis: ReadingBasis,
  coefficients: Coefficients,
  change = 0,
): number {
  const evidence = (id: string) => coefficientValue(coefficients, `evidence.${id}`);
  const own = ownSd(measurand, value, basis.methodKnown, coefficients);
  if (basis.sampleKmKnown) return own;
  const moved = change === 0 ? value : change;
  return Math.hypot(own, evidence('oil_distance_unknown_sd') * Math.abs(moved));
}

function ownSd(
  measurand: ModelledMeasurand | 'metal',
  value: number,
  methodKnown: boolean,
  coefficients: Coefficients,
): number {
  const evidence = (id: string) => coefficientValue(coefficients, `evidence.${id}`);
  const oil = (id: string) => coefficientValue(coefficients, `oil.${id}`);
  const size = Math.abs(value);
  switch (measurand) {
    case 'baseNumber':
      return methodKnown
        ? evidence('base_number_sd')
        : Math.hypot(evidence('base_number_sd'), evidence('method_offset_sd'));
    case 'acidNumber':
      return Math.max(evidence('acid_number_sd'), evidence('acid_number_relative_sd') * size);
    case 'kv100':
      return evidence('viscosity_relative_sd') * size;
    case 'fuelPercent':
      return methodKnown ? oil('fuel_sd_gas_chromatography') : oil('fuel_sd_other');
    case 'sootPercent':
      return Math.max(evidence('soot_sd'), evidence('soot_relative_sd') * size);
    case 'oxidation':
      return evidence('oxidation_sd');
    case 'nitration':
    case 'sulfation':
      return oil('nitration_sd');
    case 'metal':
      return Math.max(1, oil('metal_relative_sd') * size);
  }
}
