import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import { applicabilityOf } from './applicability.ts';
import type { Applicability } from './applicability.ts';
import { assimilate } from './assimilate.ts';
import type { FitSettings, Posterior, Prior } from './assimilate.ts';
import { codeEvidence, seenCodes } from './codeEvidence.ts';
import type { Evidence } from './evidence.ts';
import { requireEvidence } from './evidenceIds.ts';
import type { FaultCodes } from './faultCode.ts';
import { findingEvidence } from './findingEvidence.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import { lifeEvidence } from './lifeEvidence.ts';
import { latentCount } from './latents.ts';
import type { RatePrior } from './latents.ts';
import { metalEvidence } from './metalEvidence.ts';
import { chainLimitOf } from './phaseGeometry.ts';
import type { ChainLimit } from './phaseGeometry.ts';
import { renewalsOf } from './renewals.ts';
import { recordsFromDay } from './recordsFrom.ts';
import { responseOf } from './response.ts';
import type { Response } from './response.ts';
import { sampleEvidence } from './sampleEvidence.ts';
import { segmentsOf } from './segments.ts';
import type { FillOf, Segment } from './segments.ts';
import type { Renewal } from './states.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import { unitPrior } from './unitPrior.ts';
import type { InPlay } from './unitPrior.ts';
import { unrecordedLifeOf } from './unrecordedLife.ts';

/** What the wear models take beside the unit itself. */
export interface WearContext {
  /** the oil of a charge and the engine as the oil sees it */
  readonly fillOf: FillOf;
  readonly coefficients: Coefficients;
  readonly faultCodes: FaultCodes;
  /** chance that a failure would be on record, so that the lack of one says something; left out: 0 */
  readonly failuresRecorded?: number;
  /** the family's level of iron in oil against the catalog's, as logarithm; left out: not known, iron is not used */
  readonly ironOffset?: number | null;
}

/** A unit's timeline worked through with all its evidence; what its states are read from. */
export interface UnitAnalysis {
  readonly timeline: UnitTimeline;
  readonly history: UnitHistory;
  readonly context: WearContext;
  readonly applies: Applicability;
  readonly chainLimit: ChainLimit | null;
  readonly renewals: readonly Renewal[];
  readonly response: Response;
  readonly evidence: readonly Evidence[];
  /** what the ends and lives of parts tell, whether it counted or not */
  readonly lives: readonly Evidence[];
  readonly family: RatePrior;
  readonly inPlay: InPlay;
  readonly prior: Prior;
  readonly posterior: Posterior;
  readonly settings: FitSettings;
  readonly setting: EvidenceSetting;
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

/** Whether the unit's records begin when it was new. */
function newAtStart({ unit }: UnitHistory): boolean {
  const odometerKm = unit.acquiredOdometerKm ?? unit.inServiceOdometerKm;
  return odometerKm === null ? unit.acquiredOn === null : odometerKm < 1500;
}

/**
 * Works a unit's timeline through with its evidence.
 * @param family what is believed of the rates of its engine family
 * @param counts which evidence counts; left out: all
 * @returns null when no wear state applies or there are no records
 */
export function analyseUnit(
  timeline: UnitTimeline,
  history: UnitHistory,
  family: RatePrior,
  context: WearContext,
  counts: (evidence: Evidence) => boolean = () => true,
): UnitAnalysis | null {
  const { coefficients, faultCodes, fillOf } = context;
  requireEvidence(coefficients);
  const applies = applicabilityOf(timeline, history);
  if (!applies.sludge) return null;
  const asOfDay = timeline.asOfDay;
  const renewals = renewalsOf(history, asOfDay, faultCodes, coefficients);
  const codes = seenCodes(history, faultCodes, asOfDay);
  const sampleDays = history.samples
    .map((sample) => dayFromIso(sample.sampledOn))
    .filter((day) => day <= asOfDay);
  const recordsFrom = recordsFromDay(history, timeline);
  const marks = [
    recordsFrom,
    ...sampleDays,
    ...history.findings.map((finding) => dayFromIso(finding.foundOn)),
    ...codes.map((code) => code.day),
  ];
  const unrecorded = unrecordedLifeOf(timeline, newAtStart(history), coefficients);
  const segments = segmentsOf(timeline, fillOf, marks, renewals, unrecorded);
  const segmentAt = segmentFinder(segments, asOfDay);
  const sampled = new Set(sampleDays.map(segmentAt).filter((segment) => segment >= 0));
  const chainLimit = applies.chain ? chainLimitOf(history.engine, coefficients) : null;
  const setting: EvidenceSetting = {
    engine: history.engine,
    chainLimit,
    hasPhaser: applies.phaser,
    coefficients,
    segmentAt,
  };
  const lives = lifeEvidence(renewals, asOfDay, context.failuresRecorded ?? 0, codes, setting);
  const direct: Evidence[] = [
    ...findingEvidence(history, setting),
    ...(context.ironOffset === undefined || context.ironOffset === null
      ? []
      : metalEvidence(history, timeline, segments, setting, context.ironOffset)),
    ...codeEvidence(codes, renewals, asOfDay, setting),
    ...lives,
  ];
  const settings = fitSettings(coefficients);
  const base = new Float64Array(latentCount);
  base.set(family.mean);
  let response = responseOf(segments, timeline.charges, base, coefficients, sampled, recordsFrom);
  const inPlay = inPlayOf(
    direct,
    renewals,
    response,
    applies,
    renewedBefore(response, base, chainLimit, context),
    sampled.size > 0,
  );
  const prior = unitPrior(timeline, family, inPlay, coefficients);
  const evidenceAt = (at: Response): readonly Evidence[] =>
    inOrder([...direct, ...sampleEvidence(history, timeline, at, segmentAt, coefficients)].filter(counts));
  let evidence = evidenceAt(response);
  let posterior = assimilate(response, evidence, prior, settings);
  for (let round = 0; round < 2 && movedFar(posterior.mode, response.base); round++) {
    response = responseOf(segments, timeline.charges, posterior.mode, coefficients, sampled, recordsFrom);
    evidence = evidenceAt(response);
    posterior = assimilate(response, evidence, prior, settings);
  }
  return {
    timeline,
    history,
    context,
    applies,
    chainLimit,
    renewals,
    response,
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

/** The end of unrecorded life is known about this well; evidence from before it has no place, d. */
const beforeDays = 30;

function segmentFinder(segments: readonly Segment[], asOfDay: number): (day: number) => number {
  const first = segments[0];
  const least = first.chargeIndex < 0 ? first.toDay - beforeDays : first.fromDay;
  return (day) => (day > asOfDay || day < least ? -1 : segments.findIndex((segment) => segment.toDay >= day));
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
  const phase = direct.filter(({ words }) => words.startsWith('phase '));
  return {
    samples,
    chain: applies.chain,
    phaser: applies.phaser,
    before,
    hiddenDrains: response.splitLogOdds.some((odds) => odds !== Number.NEGATIVE_INFINITY),
    twoBanks: banks.has('2'),
    phase1: phase.some(({ bank }) => bank !== '2'),
    phase2: phase.some(({ bank }) => bank === '2'),
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

function movedFar(mode: Float64Array, base: Float64Array): boolean {
  for (let i = 0; i < base.length; i++) if (Math.abs(mode[i] - base[i]) > farMove) return true;
  return false;
}

/** The charge of a segment; null for unrecorded life. */
export function chargeOfSegment(timeline: UnitTimeline, segment: Segment): OilCharge | null {
  return segment.chargeIndex < 0 ? null : timeline.charges[segment.chargeIndex];
}
