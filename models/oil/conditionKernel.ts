import { agingRatesInto, emptyAgingRates } from './agingRates.ts';
import type { AgingRates } from './agingRates.ts';
import type { ConditionCoefficients } from './conditionCoefficients.ts';
import { decayOnce, decayThrice, decayTwice } from './decay.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from './exposure.ts';
import { blendingNumber, viscosityOfBlendingNumber } from './viscosityBlend.ts';

/** Where each value stands in the array of a running charge: the oil first, then the wear it has laid down. */
export const slot = {
  baseNumber: 0,
  additiveShare: 1,
  oxidation: 2,
  fuelPercent: 3,
  sootPercent: 4,
  dispersancyUsed: 5,
  engineHours: 6,
  fuelLiters: 7,
  sludge: 8,
  chainPercent: 9,
  phaserClean: 10,
  /** wear multiplier times engine hours, h */
  wearHours: 11,
} as const;
/** Length of the array of a running charge. */
export const slotCount = 12;

/** Fuel above this share of the oil is not oil any more; the blending formula is not followed further. */
const mostFuelPercent = 60;
/** Fuel that has settled for this many time constants is level: the course is integrated in two parts around it. */
const settledAfter = 4;
/** Gauss-Legendre on 0..1, five points. Source: Abramowitz and Stegun, table 25.4. */
const nodes = [0.046910077030668, 0.230765344947158, 0.5, 0.769234655052842, 0.953089922969332] as const;
const weights = [
  0.118463442528095, 0.239314335249683, 0.284444444444444, 0.239314335249683, 0.118463442528095,
] as const;

const scratch = emptyAgingRates();

/** Sets the array to fresh oil with no wear laid down. */
export function startCharge(slots: Float64Array, fill: OilFill): void {
  slots.fill(0);
  slots[slot.baseNumber] = fill.baseNumber;
  slots[slot.additiveShare] = 1;
}

/** Fuel in the oil (%) at time u from level `start`; fuel that comes in meets a first-order loss. */
export function fuelAt(start: number, rates: AgingRates, u: number): number {
  const x = rates.fuelDecay * u;
  const lost = Math.expm1(-x);
  const cameIn = x < 1e-8 ? u : (-lost * u) / x;
  return Math.min(mostFuelPercent, start * (1 + lost) + rates.fuelInflow * cameIn);
}

/** Dispersancy used at time u, and its integral from 0 to u by {@link dispersancySum}. */
export function dispersancyAt(
  start: number,
  fuel: number,
  fuelEffect: number,
  r: AgingRates,
  u: number,
): number {
  const x = r.fuelDecay * u;
  const fuelSum = u * (fuel * decayOnce(x) + r.fuelInflow * u * decayTwice(x));
  return start + r.precursor * (u + fuelEffect * fuelSum);
}

function dispersancySum(start: number, fuel: number, fuelEffect: number, r: AgingRates, u: number): number {
  const x = r.fuelDecay * u;
  const fuelSums = u * u * (fuel * decayTwice(x) + r.fuelInflow * u * decayThrice(x));
  return start * u + r.precursor * ((u * u) / 2 + fuelEffect * fuelSums);
}

/** Time at which dispersancy is used up, 0..1; 1 when it lasts. Newton on a smooth rising curve. */
function usedUpAt(start: number, end: number, fuel: number, fuelEffect: number, r: AgingRates): number {
  if (start >= 1) return 0;
  if (end <= 1) return 1;
  let u = (1 - start) / (end - start);
  for (let i = 0; i < 12; i++) {
    const slope = r.precursor * (1 + fuelEffect * fuelAt(fuel, r, u));
    const next = Math.min(1, Math.max(0, u - (dispersancyAt(start, fuel, fuelEffect, r, u) - 1) / slope));
    if (Math.abs(next - u) < 1e-10) return next;
    u = next;
  }
  return u;
}

/**
 * Takes a running charge through one exposure, in place; the fast form of `oilCondition` for fleet runs.
 * Closed forms for base number, additive, oxidation, fuel, soot, dispersancy and sludge; Gauss-Legendre in two parts
 * (fuel settling, fuel level) for the wear multiplier and phaser wear. Nothing is allocated.
 * @param slots the running charge, see {@link slot}; set by {@link startCharge}
 * Throws as `agingRatesInto`.
 */
export function advanceCharge(
  slots: Float64Array,
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  c: ConditionCoefficients,
): void {
  agingRatesInto(exposure, engine, fill, rates, c, scratch);
  ageCharge(slots, scratch, exposure, engine, fill, rates, c);
}

/**
 * As {@link advanceCharge}, for aging that is worked out already.
 * @param r the exposure's aging under the multipliers
 * @param laysWear false: only the oil is wanted, wear and sludge are left as they are
 */
export function ageCharge(
  slots: Float64Array,
  r: AgingRates,
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  c: ConditionCoefficients,
  laysWear = true,
): void {
  const additive = slots[slot.additiveShare];
  const fuel = slots[slot.fuelPercent];
  const soot = slots[slot.sootPercent];
  const used = slots[slot.dispersancyUsed];

  if (laysWear) layWearDown(slots, r, additive, fuel, soot, exposure, engine, fill, rates, c);

  const baseLeft = Math.exp(-r.baseDecay);
  const base = slots[slot.baseNumber];
  slots[slot.baseNumber] = Math.max(
    0,
    c.baseNumberFloor + (base - c.baseNumberFloor) * baseLeft - r.baseSulfur * decayOnce(r.baseDecay),
  );
  slots[slot.additiveShare] = additive * Math.exp(-r.additiveDecay);
  slots[slot.oxidation] += oxidationAdded(additive, r, 1, c);
  slots[slot.fuelPercent] = fuelAt(fuel, r, 1);
  slots[slot.sootPercent] = soot + r.soot;

  const usedAtEnd = dispersancyAt(used, fuel, c.precursorFuel, r, 1);
  if (laysWear) slots[slot.sludge] += sludgeAdded(used, usedAtEnd, fuel, r, rates, c);
  slots[slot.dispersancyUsed] = usedAtEnd;
  slots[slot.engineHours] += r.hours;
  slots[slot.fuelLiters] += r.fuelLiters;
}

/** Sludge from dispersancy used in the background and, faster, once it is used up. */
function sludgeAdded(
  used: number,
  usedAtEnd: number,
  fuel: number,
  r: AgingRates,
  rates: RateMultipliers,
  c: ConditionCoefficients,
): number {
  const dry = usedUpAt(used, usedAtEnd, fuel, c.precursorFuel, r);
  const sum = dispersancySum(used, fuel, c.precursorFuel, r, 1);
  const excess =
    dry >= 1 ? 0 : Math.max(0, sum - dispersancySum(used, fuel, c.precursorFuel, r, dry) - (1 - dry));
  return r.hours * (c.sludgeBackground * sum + c.sludgeRate * rates.sludge * excess);
}

/** Oxidation (A/cm) added from time 0 to u, the additive starting at `additive`: k·∫(1 + b(1−A)²)dt. */
export function oxidationAdded(additive: number, r: AgingRates, u: number, c: ConditionCoefficients): number {
  const x = r.additiveDecay * u;
  const lost = 1 - 2 * additive * decayOnce(x) + additive * additive * decayOnce(2 * x);
  return r.oxidation * u * (1 + c.oxidationBreak * lost);
}

function layWearDown(
  slots: Float64Array,
  r: AgingRates,
  additive: number,
  fuel: number,
  soot: number,
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  c: ConditionCoefficients,
): void {
  const oilNumber = blendingNumber(fill.kv100);
  const perPercent = (blendingNumber(c.fuelSystems[engine.fuelSystem].fuelViscosity) - oilNumber) / 100;
  const split = r.fuelDecay > settledAfter ? settledAfter / r.fuelDecay : 1;
  let multiplier = 0;
  let phaser = 0;
  for (let part = 0; part < (split < 1 ? 2 : 1); part++) {
    const from = part === 0 ? 0 : split;
    const width = part === 0 ? split : 1 - split;
    for (let k = 0; k < nodes.length; k++) {
      const u = from + width * nodes[k];
      const weight = width * weights[k];
      const fuelNow = fuelAt(fuel, r, u);
      const sootNow = soot + r.soot * u;
      const additiveNow = additive * Math.exp(-r.additiveDecay * u);
      const thin = viscosityOfBlendingNumber(oilNumber + perPercent * fuelNow) * c.shear;
      multiplier +=
        weight *
        (1 + c.chainSoot * sootNow) *
        (1 + c.chainFuel * fuelNow) *
        (1 + c.chainAdditive * (1 - additiveNow)) *
        Math.pow(Math.max(1, fill.kv100 / thin), c.chainViscosity);
      phaser +=
        weight * (1 + c.phaserViscosity * Math.max(0, 1 - thin / fill.kv100)) * (1 + c.phaserSoot * sootNow);
    }
  }
  multiplier *= (1 + c.chainDust * exposure.dustShare) * fill.chainWearFactor;
  slots[slot.chainPercent] += c.chainRate * rates.chain * multiplier * r.chainHours;
  slots[slot.phaserClean] += r.phaser * rates.phaser * phaser;
  slots[slot.wearHours] += multiplier * r.hours;
}
