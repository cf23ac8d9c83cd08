import type { FamilySpec } from './family.ts';
import { thinning, type DayUse, type TrueOil } from './oilPhysics.ts';
import type { Laws, TrueRates } from './rates.ts';

/** The engine's wear as it really is. */
export interface TrueWear {
  /** 10 minus merit */
  sludge: number;
  /** elongation without running-in, % */
  chainLasting: number;
  /** hours on the chain, for running-in */
  chainHours: number;
  phaser: number;
  belt: number;
}

export function newWear(): TrueWear {
  return { sludge: 0, chainLasting: 0, chainHours: 0, phaser: 0, belt: 0 };
}

export function hasChain(family: FamilySpec): boolean {
  return family.engine.timingDrive === 'chain' || family.engine.timingDrive === 'silent_chain';
}

export function hasBelt(family: FamilySpec): boolean {
  return family.engine.timingDrive === 'belt' || family.engine.timingDrive === 'wet_belt';
}

/** Elongation with running-in, %. */
export function chainPercent(wear: TrueWear): number {
  return (0.028 * wear.chainHours) / (wear.chainHours + 120) + wear.chainLasting;
}

/** Chances of failing on one day. */
export interface DayHazard {
  chain: number;
  phaser: number;
  belt: number;
}

/** Wears the engine by one day and says what the day's chances of failure were. */
export function wearEngine(
  wear: TrueWear,
  oil: TrueOil,
  use: DayUse,
  family: FamilySpec,
  rates: TrueRates,
  laws: Laws,
  hazard: DayHazard,
): void {
  const hours = use.drivingHours + use.idleHours + use.ptoHours;
  hazard.chain = 0;
  hazard.phaser = 0;
  hazard.belt = 0;
  if (hours <= 0) return;
  const excess = laws.sludgeWidth * softplus((oil.load - laws.sludgeKnee) / laws.sludgeWidth);
  const free = 1 - (wear.sludge / 10) * (wear.sludge / 10);
  wear.sludge = Math.min(
    10,
    wear.sludge +
      rates.sludge * free * hours * (3e-5 * oil.load + laws.sludgeRate * power(excess, laws.sludgePower)),
  );

  const thin = thinning(oil, family);
  const soot = power(oil.sootPercent, laws.sootPower);
  if (hasChain(family)) {
    const wearFactor =
      oil.chainSpec *
      (1 +
        laws.sootWear * soot +
        (laws.fuelWear * oil.fuelPercent) / (oil.fuelPercent + 4) +
        laws.additiveWear * (1 - oil.additive) +
        laws.thinWear * thin);
    const loaded =
      use.drivingHours * (1 + 0.28 * use.towingShare) +
      0.42 * use.idleHours +
      0.9 * use.ptoHours +
      0.25 * use.coldHours;
    const before = chainPercent(wear) / family.chainEndPercent;
    wear.chainLasting += 4e-5 * rates.chain * wearFactor * loaded;
    wear.chainHours += hours;
    const share = chainPercent(wear) / family.chainEndPercent;
    hazard.chain =
      1.3 * power(share, laws.chainHazardPower) * Math.max(0, share - before) +
      hours * 1.2e-7 * (1 + 0.25 * wear.sludge);
  }
  if (family.engine.phasers > 0) {
    const dirty = laws.phaserExponential
      ? Math.exp(laws.phaserSludge * wear.sludge)
      : 1 + laws.phaserSludge * wear.sludge;
    const step =
      rates.phaser *
      (use.soakedStarts / 60000 + hours / 45000) *
      dirty *
      (1 + 2.2 * thin) *
      (1 + 0.35 * soot);
    const before = wear.phaser;
    wear.phaser += step;
    hazard.phaser =
      power((before + wear.phaser) / 2, laws.phaserHazardPower) * step * (wear.sludge > 5 ? 1.6 : 1);
  }
  if (hasBelt(family)) {
    const step =
      rates.belt *
      ((hours / 15000) * (1 + (1.6 * oil.fuelPercent) / (oil.fuelPercent + 3) + 0.05 * wear.sludge) +
        1 / 9000);
    wear.belt += step;
    hazard.belt = 2.2 * power(wear.belt, 3) * step;
  }
}

function softplus(x: number): number {
  return x > 30 ? x : Math.log(1 + Math.exp(x));
}

function power(base: number, exponent: number): number {
  return base <= 0 ? 0 : Math.exp(exponent * Math.log(base));
}
