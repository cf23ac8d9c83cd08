import { normalCdf, normalDensity } from '../numeric/normal.ts';
import type { Trajectory } from './trajectory.ts';

/** How far words are trusted, so that a far one still pulls but does not carry a unit away; shares 0..1. */
export interface WordTrust {
  /** words given after a quick glance, and how many times wider their error is, above 1 */
  readonly glanceShare: number;
  readonly glanceWidth: number;
  /** words written without looking, and the chance of any one word then */
  readonly mistaken: number;
  readonly anyWord: number;
}

/** How likely a record is, given what the model expects of it. */
export type Likelihood =
  | {
      readonly kind: 'measured';
      readonly value: number;
      readonly sd: number;
    }
  | {
      /** a word or a reading at the end of its scale: the state with its error lay between two values */
      readonly kind: 'between';
      readonly from: number;
      readonly to: number;
      readonly sd: number;
      readonly trust: WordTrust;
    }
  | {
      /**
       * the end of a part's stay in the engine: Weibull life in the state's own measure
       * @property failed chance that it ended by failure of this part; the rest is a stay cut short
       * @property recorded chance that a failure would be on record; left out: 1
       */
      readonly kind: 'life';
      readonly median: number;
      readonly shape: number;
      readonly failed: number;
      readonly recorded?: number;
    }
  | {
      /** something that is seen or not, with a chance that rises with the state: low + (high − low) Φ((state − at)/sd) */
      readonly kind: 'seen';
      readonly at: number;
      readonly sd: number;
      readonly low: number;
      readonly high: number;
      readonly present: boolean;
    };

/** One piece of evidence with what the model expects of it. */
export interface Evidence {
  readonly day: number;
  /** place of the segment that ends when it was found */
  readonly segment: number;
  readonly state: 'sludge' | 'chain' | 'phaser' | 'oil';
  readonly words: string;
  /** the reading whose own unknowns of the unit come into play with it; left out: none */
  readonly reading?: 'phase' | 'screen';
  /** observed value on the state's own scale; null for yes/no */
  readonly observed: number | null;
  readonly recordId: number | null;
  readonly likelihood: Likelihood;
  /** what the record would show without error */
  readonly expect: (states: Trajectory, unknowns: Float64Array) => number;
  /** the state itself, for showing beside `observed`; left out: `expect` */
  readonly stateOf?: (states: Trajectory) => number;
  /** bank that it speaks of, where it is known */
  readonly bank: string | null;
  /**
   * whom it may teach: `looks` are made whatever the state is, `life` counts failures and survivors alike; what is only
   * recorded when something is wrong speaks of its unit alone
   */
  readonly teaches: 'looks' | 'life' | 'unit';
}

/** Value, slope and curvature of a log-likelihood at an expectation. */
export interface LikelihoodTerm {
  logLikelihood: number;
  slope: number;
  /** expected information, 0 or above */
  information: number;
  /** 1 full weight; below 1 an outlier kept with less */
  weight: number;
}

/**
 * The log-likelihood of one piece of evidence at an expected value.
 * Formula: measured: Huber's, −z²/2 up to `limit` standard deviations and straight beyond (Huber 1981); between: chance of
 * the interval under a normal error, mixed with a wider one of quick glances and a small chance of any word at all; life: Weibull density (per logarithm of
 * the state) or survival; seen: Bernoulli with a chance that rises by the normal distribution function and has floors for
 * other causes.
 * @param expected what the model expects
 * @param limit standard deviations from which a record is weighted down
 * @param into receives value, slope, information and weight
 */
export function likelihoodInto(
  likelihood: Likelihood,
  expected: number,
  limit: number,
  into: LikelihoodTerm,
): void {
  if (likelihood.kind === 'measured') {
    const z = (likelihood.value - expected) / likelihood.sd;
    const size = Math.abs(z);
    const weight = size <= limit ? 1 : limit / size;
    into.logLikelihood = size <= limit ? (-z * z) / 2 : -limit * size + (limit * limit) / 2;
    into.slope = (weight * z) / likelihood.sd;
    into.information = weight / (likelihood.sd * likelihood.sd);
    into.weight = weight;
    return;
  }
  if (likelihood.kind === 'between') {
    betweenInto(likelihood, expected, into);
    return;
  }
  if (likelihood.kind === 'life') {
    lifeInto(
      likelihood.median,
      likelihood.shape,
      likelihood.failed,
      likelihood.recorded ?? 1,
      expected,
      into,
    );
    return;
  }
  const { at, sd, low, high, present } = likelihood;
  const z = (expected - at) / sd;
  const chance = Math.min(1 - 1e-9, Math.max(1e-9, low + (high - low) * normalCdf(z)));
  const rise = ((high - low) * normalDensity(z)) / sd;
  into.logLikelihood = present ? Math.log(chance) : Math.log(1 - chance);
  into.slope = present ? rise / chance : -rise / (1 - chance);
  into.information = (rise * rise) / (chance * (1 - chance));
  into.weight = 1;
}

interface IntervalTerm {
  chance: number;
  slope: number;
  information: number;
}

function betweenInto(
  { from, to, sd, trust }: Extract<Likelihood, { kind: 'between' }>,
  expected: number,
  into: LikelihoodTerm,
): void {
  const { glanceShare, glanceWidth, mistaken, anyWord } = trust;
  intervalInto(from, to, sd, expected, careful);
  intervalInto(from, to, glanceWidth * sd, expected, glance);
  const ofCareful = (1 - mistaken) * (1 - glanceShare) * careful.chance;
  const ofGlance = (1 - mistaken) * glanceShare * glance.chance;
  const mixed = ofCareful + ofGlance + mistaken * anyWord;
  const share = ofCareful / mixed;
  const wideShare = ofGlance / mixed;
  into.logLikelihood = Math.log(mixed);
  into.slope = share * careful.slope + wideShare * glance.slope;
  into.information = share * careful.information + wideShare * glance.information;
  into.weight = share + wideShare / (glanceWidth * glanceWidth);
}

const careful: IntervalTerm = { chance: 0, slope: 0, information: 0 };
const glance: IntervalTerm = { chance: 0, slope: 0, information: 0 };

/** Chance of an interval under a normal error, with slope and curvature of its logarithm. */
function intervalInto(from: number, to: number, sd: number, expected: number, into: IntervalTerm): void {
  const below = (from - expected) / sd;
  const above = (to - expected) / sd;
  const chance = Math.max(1e-12, normalCdf(above) - normalCdf(below));
  const densityBelow = Number.isFinite(below) ? normalDensity(below) : 0;
  const densityAbove = Number.isFinite(above) ? normalDensity(above) : 0;
  const slope = (densityBelow - densityAbove) / (sd * chance);
  const bend =
    ((Number.isFinite(above) ? above * densityAbove : 0) -
      (Number.isFinite(below) ? below * densityBelow : 0)) /
    (sd * sd * chance);
  into.chance = chance;
  into.slope = slope;
  into.information = Math.min(1 / (sd * sd), Math.max(0, bend + slope * slope));
}

/**
 * Life with median m and shape k on the state w: survival e^(−ln2·(w/m)^k), density k·ln2·(w/m)^k of it per logarithm; an
 * end by another cause comes at a rate that does not depend on the state. A stay without failure on record outlived its
 * wear, or failed and was not written down.
 */
function lifeInto(
  median: number,
  shape: number,
  failed: number,
  recorded: number,
  expected: number,
  into: LikelihoodTerm,
): void {
  // beyond many lives the logarithm would only overflow
  const state = Math.min(8 * median, Math.max(1e-6, expected));
  const used = Math.LN2 * Math.pow(state / median, shape);
  into.weight = 1;
  if (failed === 0) {
    const survival = Math.exp(-used);
    const clean = 1 - recorded + recorded * survival;
    // where every failure is on record the logarithm is known without the exponential, which would vanish far out
    const share = recorded === 1 ? 1 : (recorded * survival) / clean;
    into.logLikelihood = recorded === 1 ? -used : Math.log(clean);
    into.slope = (-shape * share * used) / state;
    into.information = (shape * shape * share * share * used) / (state * state);
    return;
  }
  const own = failed * shape * used;
  const any = own + (1 - failed);
  const share = own / any;
  into.logLikelihood = Math.log(any) - used;
  into.slope = (shape * (share - used)) / state;
  into.information = (shape * (share + (shape - share) * used)) / (state * state);
}

/**
 * How likely the end of a stay is at a state, as {@link likelihoodInto} without slopes: a density per logarithm of the state
 * where it failed, else a chance.
 * @param logState natural logarithm of the state
 */
export function lifeChance(
  { median, shape, failed, recorded = 1 }: Extract<Likelihood, { kind: 'life' }>,
  logState: number,
): number {
  const beyond = Math.min(Math.log(8), Math.max(Math.log(1e-6 / median), logState - Math.log(median)));
  const used = Math.LN2 * Math.exp(shape * beyond);
  const survival = Math.exp(-used);
  if (failed === 0) return 1 - recorded + recorded * survival;
  return (failed * shape * used + (1 - failed)) * survival;
}
