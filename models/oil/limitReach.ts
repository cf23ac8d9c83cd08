import type { Coefficients } from '../schema/coefficient.ts';
import { agingRatesInto, emptyAgingRates } from './agingRates.ts';
import type { AgingRates } from './agingRates.ts';
import { acidNumberOf } from './condition.ts';
import { conditionCoefficients } from './conditionCoefficients.ts';
import type { ConditionCoefficients } from './conditionCoefficients.ts';
import { dispersancyAt, fuelAt, oxidationAdded } from './conditionKernel.ts';
import { decayOnce } from './decay.ts';
import type { Exposure, FuelSystem, OilEngine, OilFill, OilState, RateMultipliers } from './exposure.ts';
import { risingCrossing } from './risingCrossing.ts';
import { blendingNumber, dilutedViscosity } from './viscosityBlend.ts';

/** Names of the limits that chemistry sets, as the assessment prints them; viscosity here is thickening. */
export const chemicalLimitNames = [
  'base_number',
  'additive',
  'oxidation',
  'soot',
  'dispersancy',
  'fuel',
  'acid_number',
  'viscosity',
] as const;
export type ChemicalLimitName = (typeof chemicalLimitNames)[number];

/** The values at which oil is condemned for the drain interval. */
export interface OilLimits {
  readonly baseNumber: number;
  readonly additiveShare: number;
  readonly oxidation: number;
  readonly sootPercent: number;
  readonly dispersancyUsed: number;
  readonly fuelPercent: number;
  readonly thickKv100: number;
  readonly thinKv100: number;
}

/**
 * The limits for a fill in an engine. Base number: 40 % of the fresh one, at least 2 mg KOH/g; soot 1.5 %, diesel 3 %.
 * Source: catalog `oil.limit_*`; 8 mg KOH/g fresh → limit 3.2.
 */
export function oilLimits(fill: OilFill, fuelSystem: FuelSystem, coefficients: Coefficients): OilLimits {
  const c = conditionCoefficients(coefficients);
  return {
    baseNumber: Math.max(c.limitBaseNumberShare * fill.baseNumber, c.limitBaseNumber),
    additiveShare: c.limitAdditive,
    oxidation: c.limitOxidation,
    sootPercent: c.fuelSystems[fuelSystem].limitSoot,
    dispersancyUsed: c.limitDispersancy,
    fuelPercent: c.limitFuel,
    thickKv100: c.limitThickening * fill.kv100,
    thinKv100: c.limitThinning * fill.kv100,
  };
}

/** How far a duty can go on before each limit. */
export interface LimitReach {
  /** multiples of the exposure until each limit; Infinity: never; 0: passed already */
  readonly times: Readonly<Record<ChemicalLimitName, number>>;
  /** multiples until fuel (with shear) has thinned the oil to the thin limit; may settle before: Infinity */
  readonly thinningTimes: number;
}

const fresh = (fill: OilFill) => ({
  baseNumber: fill.baseNumber,
  additiveShare: 1,
  oxidation: 0,
  fuelPercent: 0,
  sootPercent: 0,
  dispersancyUsed: 0,
});
type Start = ReturnType<typeof fresh>;

/**
 * When each chemical limit is reached if the duty of an exposure goes on and on.
 * Formulas: those of `oilCondition` solved for time, in closed form where there is one, else by root finding.
 * @param exposure the duty; only its mix matters, totals set the unit of the answer
 * @param from the oil now; left out: fresh oil
 * @param most limits beyond this multiple are not looked for and come back as Infinity; left out: all are
 * @returns multiples of the exposure; the mixed 10000 km on a GDI engine → dispersancy 0.903
 * Throws as `oilCondition`.
 */
export function limitReach(
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  coefficients: Coefficients,
  from?: OilState,
  most = Infinity,
): LimitReach {
  const c = conditionCoefficients(coefficients);
  const limits = oilLimits(fill, engine.fuelSystem, coefficients);
  const r = emptyAgingRates();
  agingRatesInto(exposure, engine, fill, rates, c, r);
  const start: Start = from ?? fresh(fill);
  const baseAt = (u: number) => baseNumberAt(start.baseNumber, r, u, c);
  const oxidationAt = (u: number) => start.oxidation + oxidationAdded(start.additiveShare, r, u, c);
  const fuelViscosity = c.fuelSystems[engine.fuelSystem].fuelViscosity;
  const thickAt = (u: number) =>
    dilutedViscosity(fill.kv100, fuelViscosity, fuelAt(start.fuelPercent, r, u)) *
    c.shear *
    (1 + c.thickeningOxidation * oxidationAt(u) + c.thickeningSoot * (start.sootPercent + r.soot * u));

  const thinning = fuelThinningTo(limits.thinKv100, fill.kv100, fuelViscosity, c);
  const base = baseReach(start.baseNumber, limits.baseNumber, r, c);
  const span = Number.isFinite(base) && base > 0 ? base : 1;
  return {
    times: {
      base_number: base,
      additive:
        start.additiveShare <= limits.additiveShare
          ? 0
          : ratio(Math.log(start.additiveShare / limits.additiveShare), r.additiveDecay),
      oxidation:
        r.oxidation > 0
          ? risingCrossing((u) => oxidationAt(u) - limits.oxidation, limits.oxidation / r.oxidation, most)
          : never(start.oxidation >= limits.oxidation),
      soot: ratio(Math.max(0, limits.sootPercent - start.sootPercent), r.soot),
      dispersancy: dispersancyReach(start, limits.dispersancyUsed, r, c, most),
      fuel: fuelReach(start.fuelPercent, limits.fuelPercent, r),
      acid_number:
        r.hours > 0
          ? risingCrossing((u) => acidNumberOf(baseAt(u), oxidationAt(u), fill, c) - baseAt(u), span, most)
          : never(acidNumberOf(start.baseNumber, start.oxidation, fill, c) >= start.baseNumber),
      viscosity: r.hours > 0 ? risingCrossing((u) => thickAt(u) - limits.thickKv100, span, most) : Infinity,
    },
    thinningTimes: fuelReach(start.fuelPercent, thinning, r),
  };
}

function never(passed: boolean): number {
  return passed ? 0 : Infinity;
}

function ratio(need: number, rate: number): number {
  if (need <= 0) return 0;
  return rate > 0 ? need / rate : Infinity;
}

function baseNumberAt(base: number, r: AgingRates, u: number, c: ConditionCoefficients): number {
  const x = r.baseDecay * u;
  return Math.max(
    0,
    c.baseNumberFloor + (base - c.baseNumberFloor) * Math.exp(-x) - r.baseSulfur * u * decayOnce(x),
  );
}

function baseReach(base: number, limit: number, r: AgingRates, c: ConditionCoefficients): number {
  if (base <= limit) return 0;
  if (r.baseDecay <= 0) return ratio(base - limit, r.baseSulfur);
  const sulfur = r.baseSulfur / r.baseDecay - c.baseNumberFloor;
  if (limit + sulfur <= 0) return Infinity;
  return Math.log((base + sulfur) / (limit + sulfur)) / r.baseDecay;
}

function dispersancyReach(
  start: Start,
  limit: number,
  r: AgingRates,
  c: ConditionCoefficients,
  most: number,
): number {
  const need = limit - start.dispersancyUsed;
  if (need <= 0) return 0;
  if (r.precursor <= 0) return Infinity;
  return risingCrossing(
    (u) => dispersancyAt(start.dispersancyUsed, start.fuelPercent, c.precursorFuel, r, u) - limit,
    need / r.precursor,
    most,
  );
}

function fuelReach(fuel: number, limit: number, r: AgingRates): number {
  if (fuel >= limit) return 0;
  if (r.fuelDecay <= 1e-9) return ratio(limit - fuel, r.fuelInflow);
  const level = r.fuelInflow / r.fuelDecay;
  return level <= limit ? Infinity : Math.log((level - fuel) / (level - limit)) / r.fuelDecay;
}

/** The fuel (%) at which oil with shear has thinned to a viscosity; 0 when shear alone does it. */
function fuelThinningTo(thin: number, kv: number, fuelViscosity: number, c: ConditionCoefficients): number {
  const target = thin / c.shear;
  if (target >= kv) return 0;
  const perShare = blendingNumber(fuelViscosity) - blendingNumber(kv);
  return (100 * (blendingNumber(target) - blendingNumber(kv))) / perShare;
}
