import { dueDateDistribution, type DueDates } from '../decisions/duedates.ts';
import type { BookInterval } from '../oil/bookInterval.ts';
import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { chemicalLimit } from '../oil/chemicalLimit.ts';
import { recommendedInterval, type IntervalAdvice } from '../oil/recommendedInterval.ts';
import type { OilAssessment } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Engine } from '../schema/engine.ts';
import type { FillAndEngine } from '../wear/segments.ts';
import type { UnitStates } from '../wear/states.ts';
import { dueClocks } from './dueClocks.ts';
import { comingMonths, dutyExposure } from './dutyExposure.ts';
import { round } from './round.ts';

/** The oil side of one unit. */
export interface OilView {
  readonly assessment: OilAssessment;
  readonly advice: IntervalAdvice;
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

/** The charge now in the engine when its start is on record; null when nobody wrote down a change. */
export function runningCharge(timeline: UnitTimeline): OilCharge | null {
  const last = timeline.charges[timeline.charges.length - 1];
  if (last === undefined || !last.running) return null;
  const recorded = timeline.charges.some((charge) => charge.startBasis === 'drain');
  if (!recorded && (last.startBasis === 'first_record' || last.hiddenDrainChance > 0.5)) return null;
  return last;
}

/**
 * Interval and due date of the oil now in the engine: the advice runs month by month at the present duty, so that a
 * coming winter counts; the date carries the doubt about use and about the nearest chemical limit.
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
  const coming = comingMonths(duty, asOfDay);
  const oilNow = states.oilNow;
  const question = {
    coming,
    engine: fillAndEngine.engine,
    fill: fillAndEngine.fill,
    rates: states.rates,
    book,
    severe: duty.severe,
  };
  const advice = recommendedInterval(
    charge !== null && oilNow !== null
      ? { ...question, soFar: { state: oilNow, exposure: charge.exposure } }
      : question,
    coefficients,
  );
  const year = dutyExposure(duty, asOfDay, 365.25);
  const chemical = advice.calibrated
    ? chemicalLimit(year, fillAndEngine.engine, fillAndEngine.fill, states.rates, coefficients)
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
      due: null,
      notKnown,
    };
  }
  const due = dueDateDistribution(dueClocks(advice, timeline, charge, states.ratesLogSd), asOfDay);
  if (due.dueOn === null) notKnown['oil.dueOn'] = due.reasons.join('; ');
  const { odometerKm, engineHours } = timeline;
  const kmSince = charge.exposure.distanceKm;
  const hoursSince = oilNow?.engineHours ?? null;
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
    due,
    notKnown,
  };
}
