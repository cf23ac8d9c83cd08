import { rateNames } from '../oil/exposure.ts';
import type { RateMultipliers } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';

/**
 * The unknowns of a unit, in the order of their vector. First what families and fleet teach: eight log-rates, background
 * sludge, how much steeper than the model sludge grows, and where the family's phase stands when its chain is new (degrees
 * of the crank). Then what is the unit's own: slow drifts that the model does not explain; what the unrecorded life left
 * behind; how often drains were done elsewhere; bank differences; phase offsets; how much of the sludge a cleaned screen
 * meets again. All are 0 in the middle; rates are logarithms against the catalog.
 */
export const latent = {
  baseNumberLife: 0,
  oxidation: 1,
  fuel: 2,
  soot: 3,
  precursor: 4,
  sludge: 5,
  chain: 6,
  phaser: 7,
  background: 8,
  contrastSludge: 9,
  phaseOffset: 10,
  driftSludge: 11,
  driftChain: 12,
  driftPhaser: 13,
  beforeSludge: 14,
  beforeChain: 15,
  beforePhaser: 16,
  hiddenDrains: 17,
  bankChain: 18,
  bankPhaser: 19,
  phaseBias1: 20,
  phaseBias2: 21,
  screenCarry: 22,
} as const;
export const latentCount = 23;
export const rateCount = rateNames.length;
/** how many of them families and fleet teach */
export const taughtCount = 11;

/** Mean and standard deviation of a unit's taught unknowns, in the order of `latent`. */
export interface RatePrior {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  /** covariance, row-major, where the family's evidence ties unknowns together; null: independent */
  readonly covariance: Float64Array | null;
  /** learned scales of the spread between units */
  readonly spread: SpreadScales;
}

/** How much wider (above 1) or narrower units scatter than the catalog says, by what the evidence is on. */
export interface SpreadScales {
  readonly oil: number;
  readonly sludge: number;
  readonly chain: number;
  readonly phaser: number;
}
export const unitSpread: SpreadScales = { oil: 1, sludge: 1, chain: 1, phaser: 1 };

/** The scale that goes with a taught unknown. */
export function spreadOfRate(index: number, spread: SpreadScales): number {
  switch (index) {
    case latent.precursor:
    case latent.sludge:
    case latent.background:
    case latent.contrastSludge:
      return spread.sludge;
    case latent.chain:
      return spread.chain;
    case latent.phaser:
      return spread.phaser;
    case latent.phaseOffset:
      return 1;
    default:
      return spread.oil;
  }
}

/** Spread of the taught unknowns (sd): units about their family, families about the fleet, fleets about the catalog. */
export interface TaughtSpread {
  readonly unit: Float64Array;
  readonly family: Float64Array;
  readonly fleet: Float64Array;
}

/** The spreads by the catalog; levels of wear rates are less sure than those of oil, which laboratories have seen. */
export function taughtSpread(coefficients: Coefficients): TaughtSpread {
  const spread = {
    unit: new Float64Array(taughtCount),
    family: new Float64Array(taughtCount),
    fleet: new Float64Array(taughtCount),
  };
  rateNames.forEach((name, i) => {
    const wear = name === 'precursor' || name === 'sludge' || name === 'chain' || name === 'phaser';
    spread.unit[i] = coefficients['wear.rate_unit_log_sd'];
    spread.family[i] = coefficients[`wear.rate_family_log_sd.${name}`];
    spread.fleet[i] = coefficients[wear ? 'evidence.level_log_sd' : 'evidence.level_oil_log_sd'];
  });
  const put = (index: number, name: string): void => {
    spread.unit[index] = coefficients[`evidence.${name}_sd.unit`];
    spread.family[index] = coefficients[`evidence.${name}_sd.family`];
    spread.fleet[index] = coefficients[`evidence.${name}_sd.fleet`];
  };
  put(latent.background, 'background');
  put(latent.contrastSludge, 'contrast');
  put(latent.phaseOffset, 'phase_offset');
  return spread;
}

/**
 * What is believed of a unit nothing is known of but the catalog.
 * @returns means 0 and total sds, e.g. soot rate √(0.3² + 0.4² + 0.25²) = 0.56
 */
export function catalogRatePrior(coefficients: Coefficients): RatePrior {
  const { unit, family, fleet } = taughtSpread(coefficients);
  const sd = unit.map((own, i) => Math.hypot(own, family[i], fleet[i]));
  return { mean: new Float64Array(taughtCount), sd, covariance: null, spread: unitSpread };
}

/** The multipliers of a vector of log-rates; [0, …] → all 1. */
export function ratesOf(logRates: ArrayLike<number>): RateMultipliers {
  const rates: Record<string, number> = {};
  rateNames.forEach((name, i) => {
    rates[name] = Math.exp(Math.min(6, Math.max(-6, logRates[i])));
  });
  return rates as unknown as RateMultipliers;
}
