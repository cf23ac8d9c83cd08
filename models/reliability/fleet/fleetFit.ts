import type { Clock, HoursRule } from './clocks.ts';
import type { CovariateSpec } from './covariateSpec.ts';
import type { FleetPriors } from './fleetPriors.ts';
import type { RenewalPractice } from './renewalPractice.ts';
import type { ParameterDraw } from './structureDraws.ts';
import type { SpreadNode } from './structureFit.ts';
import type { ParameterLayout } from './structurePosterior.ts';

/** A value with its 80 % range. */
export interface Ranged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** One of the averaged clocks, fitted. */
export interface FittedStructure {
  readonly clock: Clock;
  readonly layout: ParameterLayout;
  /** share in the average; all add up to 1 */
  readonly weight: number;
  readonly best: SpreadNode;
  readonly draws: readonly ParameterDraw[];
  /** mean leave-one-out log score per episode */
  readonly score: number;
  /** use per day of the running fleet in prior lifetimes, full and idle */
  readonly usePerDay: { readonly full: number; readonly idle: number };
}

export interface FamilyScale {
  readonly family: string;
  readonly failures: number;
  /** life against the mean of the fleet's families: 1.2 lasts 20 % longer */
  readonly lifeFactor: Ranged;
  /** share of what is known of this family's life that comes from the fleet's own records, 0..1 */
  readonly ownDataShare: number;
}

export interface LearnedEffect {
  readonly name: string;
  readonly kind: CovariateSpec['kind'];
  readonly effect: Ranged;
  readonly priorMean: number;
  readonly priorSd: number;
}

/** What the fleet's failure model knows after a fit. */
export interface FleetFit {
  /** of the inputs and coefficients: two fits with one version say the same */
  readonly version: string;
  readonly covariates: readonly CovariateSpec[];
  readonly priors: FleetPriors;
  readonly families: readonly string[];
  readonly hours: HoursRule;
  readonly structures: readonly FittedStructure[];
  readonly episodes: number;
  /** weighted by the chance that each end was a failure */
  readonly failures: number;
  readonly exposureDays: number;
  /** failures per unit and day, the prior's level where there are none */
  readonly baseRatePerDay: number;
  /** share of the way each log hazard is pulled to the base rate, 0..1 */
  readonly pull: number;
  /** how far a whole year may lie from what is expected of it beyond chance: coefficient of variation */
  readonly yearSpread: number;
  /** factor on all hazards that brings the level back to what was seen */
  readonly level: number;
  readonly practice: RenewalPractice;
  readonly shape: Ranged;
  /** characteristic life of the fleet's middle family on the clock with the greatest weight */
  readonly life: Ranged & { readonly unit: 'h' | 'km' };
  readonly familyScales: readonly FamilyScale[];
  readonly effects: readonly LearnedEffect[];
  /** share of what is known of the hazard's level that comes from the fleet's own records, 0..1 */
  readonly ownDataShare: number;
  readonly method: 'laplace' | 'resampled';
  /** worst Pareto k over the clocks that count; null with Laplace */
  readonly paretoK: number | null;
  /** in words: what a reader must know of this fit */
  readonly messages: readonly string[];
}
