import { rateNames } from '../oil/exposure.ts';
import type { RateMultipliers } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';

/**
 * The unknowns of a unit, in the order of their vector: eight log-rates; background sludge; slow drifts that the model
 * does not explain; what the unrecorded life left behind; how often drains were done elsewhere; bank differences; phase
 * offsets. All are 0 in the middle; the rates are logarithms against the catalog.
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
  driftSludge: 9,
  driftChain: 10,
  driftPhaser: 11,
  beforeSludge: 12,
  beforeChain: 13,
  beforePhaser: 14,
  hiddenDrains: 15,
  bankChain: 16,
  bankPhaser: 17,
  phaseBias1: 18,
  phaseBias2: 19,
  iron: 20,
} as const;
export const latentCount = 21;
export const rateCount = rateNames.length;

/** Mean and standard deviation of the eight log-rates, in the order of `rateNames`. */
export interface RatePrior {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  /** covariance of the means, row-major 8 × 8, where the family's evidence ties rates together; else independent */
  readonly covariance: Float64Array | null;
}

/**
 * The rates of a family nothing is known of: catalog level, with the spread of families and units and the doubt about
 * the level of unfitted wear rates.
 * @returns means 0 and sds by rate, e.g. base number life √(0.4² + 0.3²) = 0.5
 */
export function catalogRatePrior(coefficients: Coefficients): RatePrior {
  const unit = coefficients['wear.rate_unit_log_sd'];
  const sd = new Float64Array(rateCount);
  rateNames.forEach((name, i) => {
    const family = familyLogSd(name, coefficients);
    sd[i] = Math.sqrt(family * family + unit * unit);
  });
  return { mean: new Float64Array(rateCount), sd, covariance: null };
}

/** Spread of a rate between families (log-sd), with the doubt about the level of the unfitted wear rates. */
export function familyLogSd(name: keyof RateMultipliers, coefficients: Coefficients): number {
  const family = coefficients[`wear.rate_family_log_sd.${name}`];
  const unfitted = name === 'precursor' || name === 'sludge' || name === 'chain' || name === 'phaser';
  const level = unfitted ? coefficients['evidence.level_log_sd'] : 0;
  return Math.sqrt(family * family + level * level);
}

/** The multipliers of a vector of log-rates; [0, …] → all 1. */
export function ratesOf(logRates: ArrayLike<number>): RateMultipliers {
  const rates: Record<string, number> = {};
  rateNames.forEach((name, i) => {
    rates[name] = Math.exp(Math.min(6, Math.max(-6, logRates[i])));
  });
  return rates as unknown as RateMultipliers;
}
