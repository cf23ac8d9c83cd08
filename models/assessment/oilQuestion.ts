import type { BookInterval, IntervalNote } from '../oil/bookInterval.ts';
import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { oilCondition } from '../oil/condition.ts';
import { unitRates, type RateMultipliers } from '../oil/exposure.ts';
import type { IntervalQuestion } from '../oil/intervalQuestion.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { ratesUnderFaults } from '../wear/responses.ts';
import type { FillAndEngine } from '../wear/segments.ts';
import type { UnitStates } from '../wear/states.ts';
import { comingMonths } from './dutyExposure.ts';

/** The charge now in the engine when its start is on record; null when nobody wrote down a change. */
export function runningCharge(timeline: UnitTimeline): OilCharge | null {
  const last = timeline.charges[timeline.charges.length - 1];
  if (last === undefined || !last.running) return null;
  const recorded = timeline.charges.some((charge) => charge.startBasis === 'drain');
  if (!recorded && (last.startBasis === 'first_record' || last.hiddenDrainChance > 0.5)) return null;
  return last;
}

/** The unit's rates while a ventilation or thermostat fault stands that no repair on record has ended. */
function ratesAhead(
  timeline: UnitTimeline,
  rates: RateMultipliers,
  coefficients: Coefficients,
): RateMultipliers {
  const charge = runningCharge(timeline);
  const open = charge?.openFaults ?? [];
  return open.length === 0
    ? rates
    : ratesUnderFaults(rates, { faults: open, levelLowLiters: 0 }, coefficients);
}

/** What the interval of fresh oil is asked with: the present duty month by month, what is in, and the unit's rates. */
export function freshOilQuestion(
  timeline: UnitTimeline,
  states: UnitStates,
  book: BookInterval,
  { engine, fill }: FillAndEngine,
  coefficients: Coefficients,
): IntervalQuestion {
  return {
    coming: comingMonths(timeline.duty, timeline.asOfDay),
    engine,
    fill,
    rates: ratesAhead(timeline, states.rates, coefficients),
    book,
    severe: timeline.duty.severe,
  };
}

/**
 * The same for the oil now in the engine. Where wear and oil are not calibrated or not known, its state is what the
 * catalog's rates make of what it ran, so that distance, hours and days since the change count all the same.
 */
export function runningOilQuestion(
  fresh: IntervalQuestion,
  charge: OilCharge | null,
  states: UnitStates,
  coefficients: Coefficients,
): IntervalQuestion {
  if (charge === null) return fresh;
  const { engine, fill } = fresh;
  const state =
    states.oilNow ?? oilCondition(charge.exposure, engine, fill, states.rates, coefficients).state;
  return { ...fresh, soFar: { state, exposure: charge.exposure } };
}

const faultNames: Readonly<Record<string, string>> = {
  ventilation_fault: 'a crankcase ventilation fault',
  thermostat_open: 'a thermostat that stays open',
};

/** What an open fault does to the oil, to be said beside the interval; null: none is open. */
export function openFaultNote(charge: OilCharge | null, coefficients: Coefficients): IntervalNote | null {
  const open = charge?.openFaults ?? [];
  if (open.length === 0) return null;
  const names = open.map((fault) => faultNames[fault] ?? fault.replaceAll('_', ' ')).join(' and ');
  const { precursor: factor } = ratesUnderFaults(
    unitRates,
    { faults: open, levelLowLiters: 0 },
    coefficients,
  );
  return {
    code: 'open_fault',
    numbers: { factor },
    words: `On record without a repair: ${names}. Until it is put right the oil's dispersancy is taken as used ${Number(factor.toPrecision(2))} times as fast; repair it before the next change.`,
  };
}
