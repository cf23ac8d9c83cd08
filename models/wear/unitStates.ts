import type { UnitTimeline } from '../oil/charge.ts';
import type { OilState, RateMultipliers } from '../oil/exposure.ts';
import { rateNames } from '../oil/exposure.ts';
import type { UnitHistory } from '../schema/history.ts';
import { applicabilityOf } from './applicability.ts';
import { cautionsOf } from './cautions.ts';
import { causesOf } from './causes.ts';
import { drawCount, rangeOfDraws, stateDraws } from './ensemble.ts';
import type { StateDraws } from './ensemble.ts';
import { catalogRatePrior, ratesOf } from './latents.ts';
import type { RatePrior } from './latents.ts';
import { renewalsOf } from './renewals.ts';
import { runSegments } from './responses.ts';
import { rangeDeviations } from '../numeric/normal.ts';
import type { EvidenceUse, Ranged, UnitStates, WearPoint } from './states.ts';
import { stopsOf } from './stops.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import { analyseUnit, chargeOfSegment } from './unitAnalysis.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';
import type { WearContext } from './unitPreparation.ts';

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
  const { whole, timeline, history, context, applies, family } = analysis;
  const now = pointsAt(analysis, [analysis.response.segments.length - 1])[0];
  const { rates, logSd } = ratesBelieved(analysis);
  const running = timeline.charges[timeline.charges.length - 1].running;
  const head = {
    now,
    oilNow: running ? oilAtEnds(analysis, rates, true)[timeline.charges.length - 1] : null,
    rates,
    ratesLogSd: logSd,
    evidence: evidenceUse(analysis),
    renewals: analysis.renewals,
    stops: stopsOf(history, analysis.renewals, timeline.asOfDay, context.faultCodes, context.coefficients),
    cautions: cautionsOf(analysis, now),
    notKnown: applies.reasons,
  };
  return withCourse(head, () => analyseUnit(whole, history, family, context));
}

type Course = 'points' | 'chargeEnds' | 'causes';

/**
 * Adds the course over the life and the causes, worked out again when they are first asked for: a fleet's list needs none of
 * them, and keeping the working of every unit would cost more than redoing that of one.
 */
function withCourse(head: Omit<UnitStates, Course>, again: () => UnitAnalysis | null): UnitStates {
  let kept: Pick<UnitStates, Course> | null = null;
  const course = (): Pick<UnitStates, Course> => {
    if (kept === null) {
      const analysis = again();
      if (analysis === null) throw new Error('analysis must exist for a unit that has states, got none');
      kept = {
        points: [...pointsAt(analysis, shownSegments(analysis)), head.now],
        chargeEnds: oilAtEnds(analysis, head.rates, false),
        causes: causesOf(analysis, head.now),
      };
    }
    return kept;
  };
  return {
    ...head,
    get points() {
      return course().points;
    },
    get chargeEnds() {
      return course().chargeEnds;
    },
    get causes() {
      return course().causes;
    },
  };
}

/** The segments that end on a day of their own before the last: drains, evidence, renewals. */
function shownSegments({ response: { segments } }: UnitAnalysis): readonly number[] {
  const shown: number[] = [];
  for (let k = 0; k < segments.length - 1; k++)
    if (segments[k].chargeIndex >= 0 && segments[k + 1].toDay > segments[k].toDay) shown.push(k);
  return shown;
}

function pointsAt(analysis: UnitAnalysis, at: readonly number[]): readonly WearPoint[] {
  const { response, evidence, prior, posterior, settings } = analysis;
  const draws = stateDraws(response, evidence, prior, posterior, settings, at);
  return at.map((index, place) => pointOf(response.segments[index].toDay, draws, place, analysis));
}

/** The oil at the end of each charge with the unit's own rates; only the last one where that is enough. */
function oilAtEnds(
  { timeline, context, response: { segments } }: UnitAnalysis,
  rates: RateMultipliers,
  lastOnly: boolean,
): readonly (OilState | null)[] {
  const { oil } = runSegments(
    segments,
    (segment) => chargeOfSegment(timeline, segment),
    rates,
    context.coefficients,
    (segment, index) => segment.endsCharge && (!lastOnly || index === segments.length - 1),
    false,
  );
  const ends: (OilState | null)[] = timeline.charges.map(() => null);
  segments.forEach(({ chargeIndex }, index) => {
    if (chargeIndex >= 0 && oil[index] !== null) ends[chargeIndex] = oil[index];
  });
  return ends;
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
  const range = (values: Float64Array): Ranged => rangeOfDraws(values, place * drawCount, draws.weights);
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
