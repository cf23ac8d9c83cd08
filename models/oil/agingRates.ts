import type { ConditionCoefficients } from './conditionCoefficients.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from './exposure.ts';

/** What one whole exposure does to the oil, before the course over time is worked out. Times run from 0 to 1. */
export interface AgingRates {
  /** engine hours and their parts, h; stand-by load counts as warm driving */
  hours: number;
  warmHours: number;
  idleHours: number;
  coldHours: number;
  soakedStarts: number;
  fuelLiters: number;
  /** base number above its floor falls by e^−baseDecay and by baseSulfur (mg KOH/g) */
  baseDecay: number;
  baseSulfur: number;
  /** additive falls by e^−additiveDecay */
  additiveDecay: number;
  /** oxidation with fresh additive, A/cm */
  oxidation: number;
  soot: number;
  /** fuel comes in by fuelInflow (%) and leaves by e^−fuelDecay */
  fuelInflow: number;
  fuelDecay: number;
  /** dispersancy used with no fuel in the oil */
  precursor: number;
  /** chain wear hours weighted by load, h, and phaser wear with fresh oil and a clean engine */
  chainHours: number;
  phaser: number;
}

/** An AgingRates to be filled by {@link agingRatesInto}. */
export function emptyAgingRates(): AgingRates {
  return {
    hours: 0,
    warmHours: 0,
    idleHours: 0,
    coldHours: 0,
    soakedStarts: 0,
    fuelLiters: 0,
    baseDecay: 0,
    baseSulfur: 0,
    additiveDecay: 0,
    oxidation: 0,
    soot: 0,
    fuelInflow: 0,
    fuelDecay: 0,
    precursor: 0,
    chainHours: 0,
    phaser: 0,
  };
}

function requireAboveZero(name: string, value: number): void {
  if (!(value > 0)) throw new Error(`${name} must be above 0, got ${value}`);
}

/** Rate against the reference temperature by Arrhenius: doubles from 100 to 110 °C at 82.4 kJ/mol. */
export function thermalFactor(oilC: number, c: ConditionCoefficients): number {
  const referenceK = c.oxidationReferenceC + 273.15;
  return Math.exp((-c.oxidationActivation / c.gasConstant) * (1 / (oilC + 273.15) - 1 / referenceK));
}

/**
 * Turns an exposure into rates of aging.
 * Formula: driving hours = distance / speed; soaked starts = min(trips, starts per day × days); cold hours = soaked
 * starts × min(trip time, warm-up time); fuel = recorded, or distance and idle and stand-by hours times their burn;
 * thermal hours = Σ Arrhenius(oil temperature) × hours. All are linear in the exposure, so a part of it ages alike. Where
 * a hybrid's engine drives slower than its distance per engine hour, load and default fuel go by the engine's own pace.
 * Source: Arrhenius kinetics; warm-up and temperatures by engineering judgement (catalog oil.*).
 * @param exposure totals of the charge (units in the names)
 * @param into receives the rates
 * Throws when speed, trip length or sump is not above 0.
 */
export function agingRatesInto(
  exposure: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  c: ConditionCoefficients,
  into: AgingRates,
): void {
  requireAboveZero('speedKmh', exposure.speedKmh);
  requireAboveZero('tripKm', exposure.tripKm);
  requireAboveZero('sumpLiters', engine.sumpLiters);
  requireAboveZero('dispersancyFactor', fill.dispersancyFactor);
  const system = c.fuelSystems[engine.fuelSystem];
  const { distanceKm, speedKmh, ambientC, towingShare, idleHours, ptoHours } = exposure;
  const paceKmh = exposure.enginePaceKmh ?? speedKmh;
  const below = Math.max(0, c.referenceAmbientC - ambientC);
  const above = Math.max(0, ambientC - c.referenceAmbientC);

  const drivingHours = distanceKm / speedKmh;
  const tripMinutes = (exposure.tripKm / speedKmh) * 60;
  const soakedStarts = Math.min(distanceKm / exposure.tripKm, exposure.soakedStartsPerDay * exposure.days);
  const coldHours = (soakedStarts * Math.min(tripMinutes, c.warmUpMinutes + c.warmUpPerDegree * below)) / 60;
  const warmDriving = Math.max(0, drivingHours - coldHours);
  const warmHours = warmDriving + ptoHours;
  const hours = drivingHours + idleHours + ptoHours;
  const coldIdleShare = hours > 0 ? (coldHours + idleHours) / hours : 0;

  const fuelLiters =
    exposure.fuelLiters ??
    (distanceKm * (exposure.litersPer100Km ?? system.fuelPerDistance * engine.displacementL)) / 100 +
      (idleHours * c.idleFuelBurn + ptoHours * c.ptoFuelBurn) * engine.displacementL;

  const ambientPart = c.drivingPerAmbient * (ambientC - c.referenceAmbientC);
  const drivingC =
    (paceKmh < c.fastSpeedKmh ? c.drivingSlowC : c.drivingFastC) + ambientPart + c.towingC * towingShare;
  const idleC = system.idleC - c.idlePerBelow * below + c.idlePerAbove * above;
  const drivingThermal = thermalFactor(drivingC, c);
  const ptoThermal = ptoHours > 0 ? thermalFactor(c.drivingSlowC + ambientPart, c) : 0;
  const thermalHours =
    drivingThermal * warmDriving +
    ptoThermal * ptoHours +
    thermalFactor(idleC, c) * idleHours +
    thermalFactor(c.coldC, c) * coldHours;

  const dilution = c.referenceSumpLiters / engine.sumpLiters;
  const oilKg = engine.sumpLiters * c.oilDensity;
  into.hours = hours;
  into.warmHours = warmHours;
  into.idleHours = idleHours;
  into.coldHours = coldHours;
  into.soakedStarts = soakedStarts;
  into.fuelLiters = fuelLiters;
  into.baseDecay = fuelLiters / (engine.sumpLiters * c.baseNumberLife);
  into.baseSulfur =
    (c.sulfurCapture * c.sulfurBase * engine.fuelSulfurPpm * fuelLiters * c.fuelDensity) / (1000 * oilKg);
  into.additiveDecay = c.additiveRate * thermalHours;
  into.oxidation =
    c.oxidationRate * system.oxidationFactor * thermalHours * (1 + c.oxidationColdIdle * coldIdleShare);
  into.soot = ((system.sootPerFuel * fuelLiters) / engine.sumpLiters) * (1 + c.sootColdIdle * coldIdleShare);
  into.fuelInflow =
    dilution *
    (soakedStarts * system.startFuel * (1 + c.startFuelCold * below) +
      system.drivingFuel * (warmDriving * (1 + c.towingFuel * towingShare) + ptoHours) +
      system.idleFuel * idleHours);
  into.fuelDecay =
    system.drivingFuelLoss * warmHours + system.idleFuelLoss * idleHours + system.coldFuelLoss * coldHours;
  const slow = Math.max(0, (c.precursorSlowSpeedKmh - paceKmh) / c.precursorSlowSpeedKmh);
  into.precursor =
    (dilution / fill.dispersancyFactor) *
    (c.precursorDriving *
      (warmDriving * (1 + c.precursorSlow * slow) * Math.sqrt(drivingThermal) +
        ptoHours * Math.sqrt(ptoThermal)) +
      c.precursorIdle * idleHours +
      c.precursorCold * coldHours * (1 + c.precursorColdDegree * below));
  into.chainHours = drivingHours * (1 + c.chainTowing * towingShare) + ptoHours + c.chainIdle * idleHours;
  into.phaser = soakedStarts / c.phaserStarts + hours / c.phaserHours;
  scaleRatesInto(into, rates, into);
}

/**
 * Aging under multipliers from aging without: each of them moves its own rates in proportion. The multipliers of sludge,
 * chain and phaser count where wear is laid down.
 * @param plain with all multipliers 1
 * @param into receives the rates; may be `plain`
 */
export function scaleRatesInto(plain: AgingRates, rates: RateMultipliers, into: AgingRates): void {
  into.hours = plain.hours;
  into.warmHours = plain.warmHours;
  into.idleHours = plain.idleHours;
  into.coldHours = plain.coldHours;
  into.soakedStarts = plain.soakedStarts;
  into.fuelLiters = plain.fuelLiters;
  into.baseDecay = plain.baseDecay / rates.baseNumberLife;
  into.baseSulfur = plain.baseSulfur;
  into.additiveDecay = plain.additiveDecay * rates.oxidation;
  into.oxidation = plain.oxidation * rates.oxidation;
  into.soot = plain.soot * rates.soot;
  into.fuelInflow = plain.fuelInflow * rates.fuel;
  into.fuelDecay = plain.fuelDecay;
  into.precursor = plain.precursor * rates.precursor;
  into.chainHours = plain.chainHours;
  into.phaser = plain.phaser;
}
