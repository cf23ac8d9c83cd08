import type { DueCase, DueClock } from '../decisions/duedates.ts';
import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import type { Measure } from '../oil/amounts.ts';
import type { RateMultipliers } from '../oil/exposure.ts';
import { scheduledLimits } from '../oil/intervalWords.ts';
import type { IntervalAdvice, LimitMargin } from '../oil/recommendedInterval.ts';
import type { GoverningLimit } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';

/** The rate that moves each chemical limit. */
const rateOf: Partial<Record<GoverningLimit, keyof RateMultipliers>> = {
  base_number: 'baseNumberLife',
  acid_number: 'oxidation',
  additive: 'oxidation',
  oxidation: 'oxidation',
  soot: 'soot',
  dispersancy: 'precursor',
  fuel: 'fuel',
  viscosity: 'fuel',
};

/** Which measure a limit runs down by. */
function measureOf(line: LimitMargin, timeline: UnitTimeline): Measure {
  if (line.limit === 'hours') return 'engineHours';
  if (line.limit === 'calendar') return 'days';
  return timeline.duty.kmPerDay > 0.1
    ? 'distanceKm'
    : timeline.duty.engineHoursPerDay > 0.01
      ? 'engineHours'
      : 'days';
}

/** Doubt about where a chemical limit falls (log-sd): the rate behind it and what of the charge was inferred. */
export function limitLogSd(line: LimitMargin, charge: OilCharge | null, ratesLogSd: RateMultipliers): number {
  if (scheduledLimits.has(line.limit)) return 0;
  const rate = rateOf[line.limit];
  const own = rate === undefined ? 0.3 : ratesLogSd[rate];
  const spread = charge === null ? 0 : Math.hypot(0.5 * charge.spread.idleHours, 0.3 * charge.spread.starts);
  return Math.hypot(own, spread);
}

/**
 * The clocks that make the due date: every rule (book, hours, calendar) and the nearest chemical limit. Later chemical
 * limits are left out: their doubt is largely the same, and counting it again would make every date look near.
 * @param soFar what the running charge has used
 */
export function dueClocks(
  advice: IntervalAdvice,
  timeline: UnitTimeline,
  charge: OilCharge | null,
  ratesLogSd: RateMultipliers,
): readonly DueClock[] {
  const { duty } = timeline;
  const chosen: LimitMargin[] = [];
  let chemistry = false;
  for (const line of advice.limits) {
    if (scheduledLimits.has(line.limit)) chosen.push(line);
    else if (!chemistry) {
      chosen.push(line);
      chemistry = true;
    }
  }
  const perDay: Record<Measure, number> = {
    distanceKm: duty.kmPerDay,
    engineHours: duty.engineHoursPerDay,
    days: 1,
  };
  return chosen.map((line): DueClock => {
    const measure = measureOf(line, timeline);
    const at = line.at[measure];
    const left = line.left.days > 0 ? line.left[measure] : at - at * line.used;
    return {
      name: line.limit,
      used: Math.max(0, at - left),
      remaining: left,
      limitLogSd: limitLogSd(line, charge, ratesLogSd),
      perDay: perDay[measure],
      perDayLogSd: measure === 'days' ? 0 : duty.useLogSd,
    };
  });
}

/**
 * The accounts that the records allow of the oil now in the engine: not changed since the last drain on record, or
 * changed elsewhere, as often as the length of the gap makes likely; then the same limits run from the last of these
 * changes, which lie evenly and with a doubt of their own.
 */
export function dueCases(
  advice: IntervalAdvice,
  timeline: UnitTimeline,
  charge: OilCharge | null,
  ratesLogSd: RateMultipliers,
  coefficients: Coefficients,
): readonly DueCase[] {
  const clocks = dueClocks(advice, timeline, charge, ratesLogSd);
  const chance = charge === null || charge.hiddenDrains < 1 ? 0 : charge.hiddenDrainChance;
  if (charge === null || chance < leastHiddenChance) return [{ chance: 1, clocks }];
  const doubt = coefficients['assumed.hidden_drain_log_sd'];
  const elsewhere = clocks.map((clock): DueClock => {
    const used = clock.used / (charge.hiddenDrains + 1);
    return {
      ...clock,
      used,
      remaining: clock.used + clock.remaining - used,
      limitLogSd: Math.hypot(clock.limitLogSd, doubt),
    };
  });
  return [
    { chance: 1 - chance, clocks },
    { chance, clocks: elsewhere },
  ];
}

/** Below this chance of a change that nobody wrote down, the records are taken as they stand. */
const leastHiddenChance = 0.02;
