import type { UnitTimeline } from '../oil/charge.ts';
import type { OilState, RateMultipliers } from '../oil/exposure.ts';
import { rateNames } from '../oil/exposure.ts';
import type { UnitHistory } from '../schema/history.ts';
import { applicabilityOf } from './applicability.ts';
import { cautionsOf } from './cautions.ts';
import { causesOf } from './causes.ts';
import { drawCount, ensembleOf, rangeOfDraws, stateDraws } from './ensemble.ts';
import type { StateDraws } from './ensemble.ts';
import { catalogRatePrior, ratesOf } from './latents.ts';
import type { RatePrior } from './latents.ts';
import { renewalsOf } from './renewals.ts';
import { runSegments } from './responses.ts';
import { rangeDeviations } from './normal.ts';
import type { EvidenceUse, Ranged, UnitStates, WearPoint } from './states.ts';
import { stopsOf } from './stops.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import { analyseUnit, chargeOfSegment } from './unitAnalysis.ts';
import type { UnitAnalysis, WearContext } from './unitAnalysis.ts';

/**
 * Sludge, chain elongation and phaser wear of a unit over its life, with 80 % ranges, from its history and all evidence.
 * Method: the condition model drain by drain; one joint update of the unit's rates and offsets with samples, findings,
 * codes and failures (Gauss-Newton, Laplace, re-weighted draws). The order of the records does not matter.
 * @param family what is believed of the rates of its engine family; left out: the catalog
 * @returns states, rates, causes, evidence, renewals, stops and cautions; a state that does not apply or is not known is
 * null with a reason
 */
export function unitStates(
  timeline: UnitTimeline,
  history: UnitHistory,
  context: WearContext,
  family: RatePrior = catalogRatePrior(context.coefficients),
): UnitStates {
  const analysis = analyseUnit(timeline, history, family, context);
  return analysis === null ? statesNotKnown(timeline, history, context) : statesOfAnalysis(analysis);
}

/** Reads the states off a unit that was worked through. */
export function statesOfAnalysis(analysis: UnitAnalysis): UnitStates {
  const { timeline, history, context, response, evidence, prior, posterior, settings, applies } = analysis;
  const { segments } = response;
  const ensemble = ensembleOf(response, evidence, prior, posterior, settings);
  const last = segments.length - 1;
  const shown = segments
    .map((_, index) => index)
    .filter((index) => {
      const segment = segments[index];
      const next = segments[index + 1];
      return index === last || (segment.chargeIndex >= 0 && next.toDay > segment.toDay) || next.resets !== 0;
    });
  const draws = stateDraws(response, ensemble, shown, settings);
  const points = shown.map((index, place) => pointOf(segments[index].toDay, draws, place, analysis));
  const now = points[points.length - 1];
  const { rates, logSd } = ratesBelieved(analysis);
  const oil = runSegments(
    segments,
    (segment) => chargeOfSegment(timeline, segment),
    rates,
    context.coefficients,
    (segment) => segment.endsCharge && segment.chargeIndex >= 0,
  ).oil;
  const chargeEnds: (OilState | null)[] = timeline.charges.map(() => null);
  segments.forEach((segment, index) => {
    if (segment.chargeIndex >= 0 && oil[index] !== null) chargeEnds[segment.chargeIndex] = oil[index];
  });
  const running = timeline.charges.length - 1;
  let causes: UnitStates['causes'] | null = null;
  return {
    points,
    now,
    oilNow: timeline.charges[running].running ? chargeEnds[running] : null,
    chargeEnds,
    rates,
    ratesLogSd: logSd,
    get causes() {
      causes ??= causesOf(analysis, now);
      return causes;
    },
    evidence: evidenceUse(analysis),
    renewals: analysis.renewals,
    stops: stopsOf(history, analysis.renewals, timeline.asOfDay, context.faultCodes, context.coefficients),
    cautions: cautionsOf(analysis, now),
    notKnown: applies.reasons,
  };
}

/** The range of a state with what a rating can tell apart added in; merit stays within its scale. */
function widened(range: Ranged, half: number): Ranged {
  return {
    value: range.value,
    low: Math.max(0, range.value - Math.hypot(range.value - range.low, half)),
    high: Math.min(10, range.value + Math.hypot(range.high - range.value, half)),
  };
}

function pointOf(
  day: number,
  draws: StateDraws,
  place: number,
  { applies, context }: UnitAnalysis,
): WearPoint {
  const resolution = context.coefficients['evidence.sludge_resolution'];
  const from = place * drawCount;
  const range = (values: Float64Array) => rangeOfDraws(values.subarray(from, from + drawCount));
  return {
    day,
    sludge: applies.sludge ? widened(range(draws.sludge), rangeDeviations * resolution) : null,
    chainPercent: applies.chain ? range(draws.chain) : null,
    phaserShare: applies.phaser ? range(draws.phaser) : null,
  };
}

/** Median rates after the evidence and the log-sd of each. */
function ratesBelieved({ posterior, family }: UnitAnalysis): {
  rates: RateMultipliers;
  logSd: RateMultipliers;
} {
  const sd: Record<string, number> = {};
  rateNames.forEach((name, index) => {
    const place = posterior.active.indexOf(index);
    sd[name] =
      place < 0 ? family.sd[index] : Math.sqrt(posterior.covariance[place * posterior.active.length + place]);
  });
  return { rates: ratesOf(posterior.mode), logSd: sd as unknown as RateMultipliers };
}

/** Each piece of evidence beside what the model expected before it saw any. */
function evidenceUse({
  evidence,
  response,
  prior,
  posterior,
  settings,
}: UnitAnalysis): readonly EvidenceUse[] {
  if (evidence.length === 0) return [];
  const states = emptyTrajectory(response.segments.length);
  trajectoryInto(response, prior.mean, settings.screenCarry, states);
  return evidence.map((piece, i) => ({
    day: piece.day,
    state: piece.state,
    words: piece.words,
    observed: piece.observed,
    expected: piece.stateOf === undefined ? piece.expect(states, prior.mean) : piece.stateOf(states),
    weight: posterior.weights[i],
    recordId: piece.recordId,
  }));
}

function statesNotKnown(timeline: UnitTimeline, history: UnitHistory, context: WearContext): UnitStates {
  const { coefficients, faultCodes } = context;
  const renewals = renewalsOf(history, timeline.asOfDay, faultCodes, coefficients);
  const now = { day: timeline.asOfDay, sludge: null, chainPercent: null, phaserShare: null };
  const prior = catalogRatePrior(coefficients);
  const logSd: Record<string, number> = {};
  rateNames.forEach((name, i) => (logSd[name] = prior.sd[i]));
  return {
    points: [now],
    now,
    oilNow: null,
    chargeEnds: timeline.charges.map(() => null),
    rates: ratesOf(prior.mean),
    ratesLogSd: logSd as unknown as RateMultipliers,
    causes: [],
    evidence: [],
    renewals,
    stops: stopsOf(history, renewals, timeline.asOfDay, faultCodes, coefficients),
    cautions: [],
    notKnown: applicabilityOf(timeline, history).reasons,
  };
}
