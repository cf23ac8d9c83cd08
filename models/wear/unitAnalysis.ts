import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Applicability } from './applicability.ts';
import { assimilate } from './assimilate.ts';
import type { FitSettings, Posterior, Prior } from './assimilate.ts';
import type { Evidence } from './evidence.ts';
import { latent, latentCount } from './latents.ts';
import type { RatePrior } from './latents.ts';
import { metalEvidence } from './metalEvidence.ts';
import type { ChainLimit } from './phaseGeometry.ts';
import type { Response } from './response.ts';
import { reset } from './segments.ts';
import type { Segment } from './segments.ts';
import type { Renewal } from './states.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import { unitPrior } from './unitPrior.ts';
import type { InPlay } from './unitPrior.ts';
import { prepareUnit } from './unitPreparation.ts';
import type { PreparedUnit, ResponseWithSamples, WearContext } from './unitPreparation.ts';

/** A unit's timeline worked through with all its evidence; what its states are read from. */
export interface UnitAnalysis extends Omit<PreparedUnit, 'segments' | 'direct' | 'responseAt'> {
  readonly response: Response;
  readonly evidence: readonly Evidence[];
  readonly family: RatePrior;
  readonly inPlay: InPlay;
  readonly prior: Prior;
  readonly posterior: Posterior;
  readonly settings: FitSettings;
}

/** Move of a log-rate from where the model was run that asks for another run. */
const farMove = 0.35;

/** Fixed numbers of the fit from the catalog. */
export function fitSettings(coefficients: Coefficients): FitSettings {
  return {
    outlierLimit: coefficients['evidence.outlier_limit'],
    screenCarry: coefficients['evidence.screen_carry'],
  };
}

/**
 * Works a prepared unit through with its evidence.
 * @param family what is believed of the rates of its engine family
 * @param counts which evidence counts; left out: all
 * @param ironOffset the family's level of iron in oil against the catalog's, as logarithm; null: not known, iron is not used
 */
export function analysePrepared(
  prepared: PreparedUnit,
  family: RatePrior,
  counts: (evidence: Evidence) => boolean = () => true,
  ironOffset: number | null = prepared.context.ironOffset ?? null,
): UnitAnalysis {
  const { whole, timeline, history, applies, chainLimit, renewals, segments, lives, setting } = prepared;
  const { coefficients } = prepared.context;
  const direct =
    ironOffset === null
      ? prepared.direct
      : [...prepared.direct, ...metalEvidence(history, timeline, segments, setting, ironOffset)];
  const settings = fitSettings(coefficients);
  const middle = new Float64Array(latentCount);
  middle.set(family.mean);
  const catalog = new Float64Array(latentCount);
  let at = prepared.responseAt(movedFar(middle, catalog) ? middle : catalog);
  const inPlay = inPlayOf(
    direct,
    renewals,
    at.response,
    applies,
    renewedBefore(at.response, middle, chainLimit, prepared.context),
    at.response.oilRuns.baseNumberLife !== null,
  );
  const prior = unitPrior(timeline, family, inPlay, coefficients);
  const evidenceAt = ({ samples }: ResponseWithSamples): readonly Evidence[] =>
    inOrder([...direct, ...samples].filter(counts));
  let evidence = evidenceAt(at);
  let posterior = assimilate(at.response, evidence, prior, settings);
  for (let round = 0; round < 2 && movedFar(posterior.mode, at.response.base); round++) {
    at = prepared.responseAt(posterior.mode);
    evidence = evidenceAt(at);
    posterior = assimilate(at.response, evidence, prior, settings);
  }
  return {
    whole,
    timeline,
    history,
    context: { ...prepared.context, ironOffset },
    applies,
    chainLimit,
    renewals,
    response: at.response,
    evidence,
    lives,
    family,
    inPlay,
    prior,
    posterior,
    settings,
    setting,
  };
}

/**
 * Works a unit's timeline through with its evidence.
 * @param family what is believed of the rates of its engine family
 * @returns null when no wear state applies or there are no records
 */
export function analyseUnit(
  timeline: UnitTimeline,
  history: UnitHistory,
  family: RatePrior,
  context: WearContext,
): UnitAnalysis | null {
  const prepared = prepareUnit(timeline, history, context);
  return prepared === null ? null : analysePrepared(prepared, family);
}

/** A fixed order, so that sums do not depend on the order of the records. */
function inOrder(evidence: Evidence[]): readonly Evidence[] {
  return evidence.sort(
    (a, b) =>
      a.day - b.day ||
      (a.words < b.words ? -1 : a.words > b.words ? 1 : 0) ||
      (a.observed ?? 0) - (b.observed ?? 0) ||
      (a.recordId ?? 0) - (b.recordId ?? 0),
  );
}

function inPlayOf(
  direct: readonly Evidence[],
  renewals: readonly Renewal[],
  response: Response,
  applies: Applicability,
  before: InPlay['before'],
  samples: boolean,
): InPlay {
  const banks = new Set([...direct, ...renewals].map(({ bank }) => bank));
  const phase = direct.filter(({ reading }) => reading === 'phase');
  return {
    samples,
    chain: applies.chain,
    phaser: applies.phaser,
    before,
    hiddenDrains: response.splitLogOdds.some((odds) => odds !== Number.NEGATIVE_INFINITY),
    twoBanks: banks.has('2'),
    phase1: phase.some(({ bank }) => bank !== '2'),
    phase2: phase.some(({ bank }) => bank === '2'),
    screenCleaned:
      response.resets.some((bits) => (bits & reset.screen) !== 0) &&
      direct.some(({ reading }) => reading === 'screen'),
  };
}

/**
 * Chance that chain or phaser had been renewed before the records began, from how far worn the first ones would have been.
 * @returns null when the records cover the whole life
 */
function renewedBefore(
  response: Response,
  middle: Float64Array,
  chainLimit: ChainLimit | null,
  { coefficients: c }: WearContext,
): InPlay['before'] {
  const last = response.before.lastIndexOf(1);
  if (last < 0) return null;
  const states = emptyTrajectory(response.segments.length);
  trajectoryInto(response, middle, 0, states);
  const gone = (share: number, shape: number): number => -Math.expm1(-Math.LN2 * Math.pow(share, shape));
  const chainEnd = (chainLimit?.percent ?? c['evidence.chain_limit']) * c['evidence.failure_chain_share'];
  return {
    chainRenewed: gone(states.chain1[last] / chainEnd, c['wear.chain_shape']),
    phaserRenewed: gone(states.phaser1[last], c['wear.phaser_shape']),
  };
}

/** Rates that the response follows by slopes only; with the others wear goes in step, however far they move. */
const bentRates = [latent.baseNumberLife, latent.oxidation, latent.fuel, latent.soot, latent.precursor];

function movedFar(mode: Float64Array, base: Float64Array): boolean {
  return bentRates.some((rate) => Math.abs(mode[rate] - base[rate]) > farMove);
}

/** The charge of a segment; null for unrecorded life. */
export function chargeOfSegment(timeline: UnitTimeline, segment: Segment): OilCharge | null {
  return segment.chargeIndex < 0 ? null : timeline.charges[segment.chargeIndex];
}
