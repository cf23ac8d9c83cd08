import { dueDateMixture, type DueDates } from '../decisions/duedates.ts';
import type { BookInterval } from '../oil/bookInterval.ts';
import type { UnitTimeline } from '../oil/charge.ts';
import { chemicalLimit } from '../oil/chemicalLimit.ts';
import type { IntervalQuestion } from '../oil/intervalQuestion.ts';
import { recommendedInterval, type IntervalAdvice } from '../oil/recommendedInterval.ts';
import type { OilAssessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Engine } from '../schema/engine.ts';
import type { FillAndEngine } from '../wear/segments.ts';
import type { UnitStates } from '../wear/states.ts';
import { dueCases } from './dueClocks.ts';
import { dutyExposure } from './dutyExposure.ts';
import { freshOilQuestion, openFaultNote, runningCharge, runningOilQuestion } from './oilQuestion.ts';
import { round } from './round.ts';

/** The oil side of one unit. */
export interface OilView {
  readonly assessment: OilAssessment;
  readonly advice: IntervalAdvice;
  /** what the advice answers */
  readonly question: IntervalQuestion;
  readonly due: DueDates | null;
  /** why numbers are null, by path */
  readonly notKnown: Readonly<Record<string, string>>;
}

/** What the maker's schedule says of an engine family; all null when it is not described. */
export function bookOf(engine: Engine | null): BookInterval {
  return {
    intervalKm: engine?.bookIntervalKm ?? null,
    intervalMonths: engine?.bookIntervalMonths ?? null,
    severeIntervalKm: engine?.bookSevereIntervalKm ?? null,
    severeIntervalMonths: engine?.bookSevereIntervalMonths ?? null,
    hoursLimitH: engine?.hoursLimitH ?? null,
  };
}

/**
 * Interval and due date of the oil now in the engine: the advice runs month by month at the present duty, so that a
 * coming winter counts; the date carries the doubt about use, about the nearest chemical limit and about changes that
 * nobody wrote down.
 * @param book the maker's schedule, with the longer interval that stands approved
 * @param fillAndEngine what is in the engine
 */
export function assessOil(
  timeline: UnitTimeline,
  states: UnitStates,
  book: BookInterval,
  fillAndEngine: FillAndEngine,
  coefficients: Coefficients,
): OilView {
  const { duty, asOfDay } = timeline;
  const charge = runningCharge(timeline);
  const question = runningOilQuestion(
    freshOilQuestion(timeline, states, book, fillAndEngine, coefficients),
    charge,
    states,
    coefficients,
  );
  const fault = openFaultNote(charge, coefficients);
  const byLimits = recommendedInterval(question, coefficients);
  const advice = fault === null ? byLimits : { ...byLimits, notes: [...byLimits.notes, fault] };
  const year = dutyExposure(duty, asOfDay, 365.25);
  const chemical = advice.calibrated
    ? chemicalLimit(year, question.engine, question.fill, question.rates, coefficients)
    : null;
  const notKnown: Record<string, string> = {};
  const base = {
    grade: charge?.grade ?? null,
    chemicalLimitKm: chemical === null || chemical.distanceKm === null ? null : round(chemical.distanceKm, 3),
    adjustedIntervalKm: advice.interval.distanceKm > 0 ? round(advice.interval.distanceKm, 3) : null,
    adjustedIntervalHours: advice.interval.engineHours > 0 ? round(advice.interval.engineHours, 3) : null,
    governingLimit: advice.governing,
  };
  if (chemical === null)
    notKnown['oil.chemicalLimitKm'] = 'the oil chemistry of this kind of engine is not calibrated';
  if (charge === null) {
    const reason = 'no oil change of this unit is on record';
    for (const field of [
      'kmSinceChange',
      'hoursSinceChange',
      'usedShare',
      'dueOn',
      'dueOdometerKm',
      'dueEngineHours',
    ])
      notKnown[`oil.${field}`] = reason;
    return {
      assessment: {
        ...base,
        kmSinceChange: null,
        hoursSinceChange: null,
        usedShare: null,
        dueOn: null,
        dueOnEarliest: null,
        dueOnLatest: null,
        dueOdometerKm: null,
        dueEngineHours: null,
      },
      advice,
      question,
      due: null,
      notKnown,
    };
  }
  const due = dueDateMixture(dueCases(advice, timeline, charge, states.ratesLogSd, coefficients), asOfDay);
  if (due.dueOn === null) notKnown['oil.dueOn'] = due.reasons.join('; ');
  const { odometerKm, engineHours } = timeline;
  const kmSince = charge.exposure.distanceKm;
  const hoursSince = question.soFar?.state.engineHours ?? null;
  return {
    assessment: {
      ...base,
      kmSinceChange: round(kmSince, 4),
      hoursSinceChange: hoursSince === null ? null : round(hoursSince, 4),
      usedShare: round(advice.used, 3),
      dueOn: due.dueOn,
      dueOnEarliest: due.earliestOn,
      dueOnLatest: due.latestOn,
      dueOdometerKm: odometerKm === null ? null : round(odometerKm - kmSince + advice.interval.distanceKm, 5),
      dueEngineHours:
        engineHours === null || hoursSince === null
          ? null
          : round(engineHours - hoursSince + advice.interval.engineHours, 4),
    },
    advice,
    question,
    due,
    notKnown,
  };
}
