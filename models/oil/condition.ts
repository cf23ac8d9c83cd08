import type { Coefficients } from '../schema/coefficient.ts';
import { conditionCoefficients } from './conditionCoefficients.ts';
import type { ConditionCoefficients } from './conditionCoefficients.ts';
import { advanceCharge, slot, slotCount, startCharge } from './conditionKernel.ts';
import type { Exposure, OilEngine, OilFill, OilState, RateMultipliers, WearIncrement } from './exposure.ts';
import { dilutedViscosity } from './viscosityBlend.ts';

/** The oil at the end of an exposure and the wear laid down on the way. */
export interface OilCondition {
  readonly state: OilState;
  readonly wear: WearIncrement;
}

/**
 * Oil condition and wear increments of one charge.
 * Formulas (t from 0 to 1 over the exposure): base number falls by litres of fuel per litre of sump toward a floor and
 * by the acid of fuel sulfur; additive decays with thermal hours; oxidation speeds up as the additive goes; fuel comes
 * in by soaked starts and running and boils off; soot follows fuel burned; dispersancy is used by driving, idle and
 * cold hours, faster with fuel in the oil; sludge follows once it is used up; the wear multiplier is the product of
 * soot, fuel, lost additive, lost viscosity and dust, integrated over the course.
 * Source: state equations of the catalog (`oil.*`, `wear.*`); kinetics Arrhenius; blending Refutas (Maples 2000).
 * @param exposure totals of the charge; units in the names
 * @param fill the oil put in
 * @param rates multipliers on the rates, each above 0
 * @param coefficients values by id
 * @param from state to start from: what was carried over at the drain, or the same charge at an earlier moment;
 * left out: fresh oil. Its engine hours and fuel are counted on.
 * @returns state and wear; a mixed 10000 km on a GDI engine leaves base number 4.03 and dispersancy used 1.11
 * Throws when speed, trip length or sump is not above 0, or a coefficient is missing.
 */
export function oilCondition(
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
  from?: OilState,
): OilCondition {
  const c = conditionCoefficients(coefficients);
  const slots = new Float64Array(slotCount);
  startCharge(slots, fill);
  if (from !== undefined) setState(slots, from);
  const hoursBefore = slots[slot.engineHours];
  advanceCharge(slots, exposure, engine, fill, rates, c);
  return { state: stateOf(slots, engine, fill, c), wear: wearOf(slots, hoursBefore, c) };
}

/**
 * The oil part-way through a charge, for a sample taken in between.
 * @param share how far through the exposure, 0 at the start .. 1 at the end
 * @returns as {@link oilCondition}; with share 0 the starting oil and no wear
 * Throws when share is not within 0..1, and as {@link oilCondition}.
 */
export function oilConditionAt(
  share: number,
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
  from?: OilState,
): OilCondition {
  return oilCondition(partOfExposure(exposure, share), engine, fill, rates, coefficients, from);
}

/** The same duty for a share of the way, 0..1 or more; totals shrink, the mix stays. Throws when share is below 0. */
export function partOfExposure(exposure: Exposure, share: number): Exposure {
  if (!(share >= 0)) throw new Error(`share must be 0 or above, got ${share}`);
  return {
    ...exposure,
    distanceKm: exposure.distanceKm * share,
    idleHours: exposure.idleHours * share,
    ptoHours: exposure.ptoHours * share,
    days: exposure.days * share,
    fuelLiters: exposure.fuelLiters === null ? null : exposure.fuelLiters * share,
  };
}

/** Puts a state into the array of a running charge; wear stays as it is. */
export function setState(slots: Float64Array, state: OilState): void {
  slots[slot.baseNumber] = state.baseNumber;
  slots[slot.additiveShare] = state.additiveShare;
  slots[slot.oxidation] = state.oxidation;
  slots[slot.fuelPercent] = state.fuelPercent;
  slots[slot.sootPercent] = state.sootPercent;
  slots[slot.dispersancyUsed] = state.dispersancyUsed;
  slots[slot.engineHours] = state.engineHours;
  slots[slot.fuelLiters] = state.fuelLiters;
}

/** Acid number (mg KOH/g): fresh + share of oxidation + share of base number gone; 2.0, 10 A/cm, half → 3.45. */
export function acidNumberOf(
  baseNumber: number,
  oxidation: number,
  fill: OilFill,
  c: ConditionCoefficients,
): number {
  const gone = Math.max(0, fill.baseNumber - baseNumber) / fill.baseNumber;
  return fill.acidNumber + c.acidPerOxidation * oxidation + c.acidPerBaseShare * gone;
}

/** Reads the oil state from the array of a running charge; viscosity and acid number are worked out here. */
export function stateOf(
  slots: Float64Array,
  engine: OilEngine,
  fill: OilFill,
  c: ConditionCoefficients,
): OilState {
  const baseNumber = slots[slot.baseNumber];
  const oxidation = slots[slot.oxidation];
  const fuelPercent = slots[slot.fuelPercent];
  const sootPercent = slots[slot.sootPercent];
  const fuelViscosity = c.fuelSystems[engine.fuelSystem].fuelViscosity;
  const thinKv100 = dilutedViscosity(fill.kv100, fuelViscosity, fuelPercent) * c.shear;
  return {
    baseNumber,
    acidNumber: acidNumberOf(baseNumber, oxidation, fill, c),
    additiveShare: slots[slot.additiveShare],
    oxidation,
    fuelPercent,
    sootPercent,
    kv100: thinKv100 * (1 + c.thickeningOxidation * oxidation + c.thickeningSoot * sootPercent),
    thinKv100,
    dispersancyUsed: slots[slot.dispersancyUsed],
    engineHours: slots[slot.engineHours],
    fuelLiters: slots[slot.fuelLiters],
  };
}

/** Reads the wear laid down since the hours stood at `hoursBefore`. With no hours run the multiplier is 1. */
export function wearOf(slots: Float64Array, hoursBefore: number, c: ConditionCoefficients): WearIncrement {
  const hours = slots[slot.engineHours] - hoursBefore;
  const phaserClean = slots[slot.phaserClean];
  return {
    sludge: slots[slot.sludge],
    chainPercent: slots[slot.chainPercent],
    phaserClean,
    phaserPerSludge: c.phaserSludge * phaserClean,
    wearMultiplier: hours > 0 ? slots[slot.wearHours] / hours : 1,
  };
}
