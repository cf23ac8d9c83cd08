import type { Coefficients } from '../schema/coefficient.ts';
import type { FuelSystem } from './exposure.ts';

/** The ids that stand once in the catalog, by the name the calculation uses. */
const common = {
  referenceSumpLiters: 'oil.reference_sump',
  referenceAmbientC: 'oil.reference_ambient',
  warmUpMinutes: 'oil.warm_up_minutes',
  warmUpPerDegree: 'oil.warm_up_per_degree',
  idleFuelBurn: 'oil.idle_fuel_burn',
  ptoFuelBurn: 'oil.pto_fuel_burn',
  drivingSlowC: 'oil.driving_temperature_slow',
  drivingFastC: 'oil.driving_temperature_fast',
  fastSpeedKmh: 'oil.fast_speed',
  towingC: 'oil.towing_temperature',
  drivingPerAmbient: 'oil.driving_temperature_ambient',
  idlePerBelow: 'oil.idle_temperature_below',
  idlePerAbove: 'oil.idle_temperature_above',
  coldC: 'oil.cold_temperature',
  baseNumberFloor: 'oil.base_number_floor',
  baseNumberLife: 'oil.base_number_life',
  sulfurCapture: 'oil.sulfur_capture',
  sulfurBase: 'oil.sulfur_base',
  fuelDensity: 'oil.fuel_density',
  oilDensity: 'oil.oil_density',
  oxidationActivation: 'oil.oxidation_activation',
  gasConstant: 'oil.gas_constant',
  oxidationReferenceC: 'oil.oxidation_reference_temperature',
  oxidationRate: 'oil.oxidation_rate',
  oxidationBreak: 'oil.oxidation_break',
  oxidationColdIdle: 'oil.oxidation_cold_idle',
  additiveRate: 'oil.additive_rate',
  acidPerOxidation: 'oil.acid_per_oxidation',
  acidPerBaseShare: 'oil.acid_per_base_share',
  startFuelCold: 'oil.start_fuel_cold',
  towingFuel: 'oil.towing_fuel',
  sootColdIdle: 'oil.soot_cold_idle',
  shear: 'oil.shear',
  thickeningOxidation: 'oil.thickening_oxidation',
  thickeningSoot: 'oil.thickening_soot',
  precursorDriving: 'oil.precursor_driving',
  precursorIdle: 'oil.precursor_idle',
  precursorCold: 'oil.precursor_cold',
  precursorSlow: 'oil.precursor_slow',
  precursorSlowSpeedKmh: 'oil.precursor_slow_speed',
  precursorColdDegree: 'oil.precursor_cold_degree',
  precursorFuel: 'oil.precursor_fuel',
  carryOverShare: 'oil.carry_over_share',
  limitBaseNumberShare: 'oil.limit_base_number_share',
  limitBaseNumber: 'oil.limit_base_number',
  limitAdditive: 'oil.limit_additive',
  limitOxidation: 'oil.limit_oxidation',
  limitDispersancy: 'oil.limit_dispersancy',
  limitFuel: 'oil.limit_fuel',
  limitThickening: 'oil.limit_thickening',
  limitThinning: 'oil.limit_thinning',
  sludgeBackground: 'wear.sludge_background',
  sludgeRate: 'wear.sludge_rate',
  chainRate: 'wear.chain_rate',
  chainSoot: 'wear.chain_soot',
  chainFuel: 'wear.chain_fuel',
  chainAdditive: 'wear.chain_additive',
  chainViscosity: 'wear.chain_viscosity',
  chainDust: 'wear.chain_dust',
  chainTowing: 'wear.chain_towing',
  chainIdle: 'wear.chain_idle',
  phaserStarts: 'wear.phaser_starts',
  phaserHours: 'wear.phaser_hours',
  phaserSludge: 'wear.phaser_sludge',
  phaserViscosity: 'wear.phaser_viscosity',
  phaserSoot: 'wear.phaser_soot',
} as const;

/** The ids that stand once for each fuel system: the id is followed by `.PFI`, `.GDI` and so on. */
const byFuel = {
  startFuel: 'oil.start_fuel',
  drivingFuel: 'oil.driving_fuel',
  idleFuel: 'oil.idle_fuel',
  drivingFuelLoss: 'oil.driving_fuel_loss',
  idleFuelLoss: 'oil.idle_fuel_loss',
  coldFuelLoss: 'oil.cold_fuel_loss',
  fuelViscosity: 'oil.fuel_viscosity',
  sootPerFuel: 'oil.soot_per_fuel',
  limitSoot: 'oil.limit_soot',
  idleC: 'oil.idle_temperature',
  oxidationFactor: 'oil.oxidation_factor',
  fuelPerDistance: 'oil.fuel_per_distance',
} as const;

/** The coefficients of one fuel system. */
export type FuelSystemCoefficients = Readonly<Record<keyof typeof byFuel, number>>;
/** The coefficients of the condition calculation, looked up once. */
export type ConditionCoefficients = Readonly<Record<keyof typeof common, number>> & {
  readonly fuelSystems: Readonly<Record<FuelSystem, FuelSystemCoefficients>>;
};

const fuelSystems: readonly FuelSystem[] = ['PFI', 'GDI', 'TGDI', 'diesel', 'gas'];
const resolved = new WeakMap<Coefficients, ConditionCoefficients>();

/** The value of a coefficient. Throws when the catalog lacks the id. */
export function coefficientValue(coefficients: Coefficients, id: string): number {
  const value = coefficients[id];
  if (value === undefined) throw new Error(`coefficients must hold ${id}, got nothing`);
  return value;
}

function pick<Name extends string>(
  ids: Readonly<Record<Name, string>>,
  suffix: string,
  coefficients: Coefficients,
): Record<Name, number> {
  const picked = {} as Record<Name, number>;
  for (const name of Object.keys(ids) as Name[])
    picked[name] = coefficientValue(coefficients, ids[name] + suffix);
  return picked;
}

/**
 * Looks the condition coefficients up by id; the answer for one catalog is kept, so that calls in a loop cost nothing.
 * @param coefficients values by id; must not be changed afterwards
 * @returns the values under the names of the calculation, e.g. `baseNumberLife` 240
 * Throws when an id is missing.
 */
export function conditionCoefficients(coefficients: Coefficients): ConditionCoefficients {
  const known = resolved.get(coefficients);
  if (known !== undefined) return known;
  const systems = {} as Record<FuelSystem, FuelSystemCoefficients>;
  for (const system of fuelSystems) systems[system] = pick(byFuel, `.${system}`, coefficients);
  const values = { ...pick(common, '', coefficients), fuelSystems: systems };
  resolved.set(coefficients, values);
  return values;
}
