import type { GoverningLimit } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Amounts, Measure } from './amounts.ts';
import { addAmounts, amountsOf, pointAhead } from './amounts.ts';
import type { IntervalNote } from './bookInterval.ts';
import { scheduleCaps } from './bookInterval.ts';
import { chemistryLines } from './chemistryLines.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import { fuelVerdict } from './fuelVerdict.ts';
import type { IntervalLine } from './intervalLine.ts';
import { daysAt, nearestPerLimit, sinceChange, usedShare } from './intervalLine.ts';
import type { IntervalQuestion } from './intervalQuestion.ts';
import { intervalWords } from './intervalWords.ts';

/** One limit of the interval. */
export interface LimitMargin {
  readonly limit: GoverningLimit;
  /** the measure it runs down in */
  readonly measure: Measure;
  /** where it falls, counted from the oil change, with share and severity factor taken in */
  readonly at: Amounts;
  /** from now; 0 when passed */
  readonly left: Amounts;
  /** share used up so far, 0 fresh; above 1 = past */
  readonly used: number;
  /** how much later than the governing limit it falls, 0 = governs; share of the governing interval */
  readonly margin: number;
  readonly words: string;
}

/** The recommended interval and how it came about. */
export interface IntervalAdvice {
  /** the interval, counted from the oil change; whichever comes first */
  readonly interval: Amounts;
  readonly left: Amounts;
  readonly used: number;
  readonly governing: GoverningLimit;
  /** nearest first */
  readonly limits: readonly LimitMargin[];
  /** factor on the limits that do not see fuel in the oil; 1 where fuel and viscosity settle within their limits */
  readonly severityFactor: number;
  readonly calibrated: boolean;
  readonly notes: readonly IntervalNote[];
  /** to repeat to a driver */
  readonly sentence: string;
}

/**
 * The recommended drain interval: min(0.9 × chemical limit, acid-number crossover, book interval of the service class,
 * hours cap, calendar cap). Fuel and viscosity that settle beyond their limits never make the interval near zero:
 * they raise a note to find the source and a stated factor on the limits that do not see fuel. An uncalibrated fuel
 * system (gas) gets book, hours and calendar only. It never exceeds the book. With the charge so far in the question,
 * `left` is the remaining life of the oil now in the engine on the duty to come, month by month if it is given so.
 * @param question duty, engine, oil, book; units in the names
 * @returns interval, each limit with its margin, notes and a sentence. Mixed duty on a GDI engine with a book of 10000 km →
 * 8130 km, dispersancy
 * Throws when no stretch is given, a stretch has no days, and as `oilCondition`.
 * Source: limits and caps of the catalog (`oil.limit_*`, `oil.hours_cap*`, `oil.calendar_*`).
 */
export function recommendedInterval(question: IntervalQuestion, coefficients: Coefficients): IntervalAdvice {
  const { coming, engine, book, severe } = question;
  if (coming.length === 0) throw new Error('coming must hold at least one stretch, got none');
  for (const stretch of coming)
    if (!(stretch.days > 0)) throw new Error(`days of a coming stretch must be above 0, got ${stretch.days}`);
  const whole = coming.map((stretch) => amountsOf(stretch)).reduce(addAmounts);
  const idleHours = coming.reduce((sum, stretch) => sum + stretch.idleHours, 0);
  const idleShare = whole.engineHours > 0 ? idleHours / whole.engineHours : 0;
  const caps = scheduleCaps(book, severe, idleShare, engine.fuelSystem, coefficients, question.severeFactor);
  const calibrated = coefficientValue(coefficients, `oil.calibrated.${engine.fuelSystem}`) > 0;
  const so: Amounts = question.soFar
    ? { ...amountsOf(question.soFar.exposure), engineHours: question.soFar.state.engineHours }
    : { distanceKm: 0, engineHours: 0, days: 0 };

  const verdict = calibrated ? fuelVerdict(question, coefficients) : null;
  const factor = verdict?.factor ?? 1;
  const schedule: IntervalLine[] = [];
  const cap = (limit: GoverningLimit, measure: Measure, amount: number | null, words: string): void => {
    if (amount === null) return;
    const scaled = amount * factor;
    const left = pointAhead(coming, measure, scaled - so[measure]);
    if (left === null) return;
    const at = sinceChange(so, left, measure, scaled);
    schedule.push({ limit, measure, left, at, words: withFactor(words, factor) });
  };
  const days = 365.25 / 12;
  cap('book', 'distanceKm', caps.bookKm, caps.bookWords);
  cap('book', 'days', caps.bookMonths === null ? null : caps.bookMonths * days, caps.bookWords);
  cap('hours', 'engineHours', caps.hours, caps.hoursWords);
  cap('calendar', 'days', caps.months * days, caps.calendarWords);
  const chemistry = verdict === null ? null : chemistryLines(question, so, verdict, schedule, coefficients);

  const lines = nearestPerLimit([...schedule, ...(chemistry?.lines ?? [])], so);
  const governing = lines[0];
  const limits = lines.map((line): LimitMargin => ({
    ...line,
    used: usedShare(line, so),
    margin: Math.max(0, daysAt(line, so) / Math.max(1e-9, daysAt(governing, so)) - 1),
  }));
  const notes = [...caps.notes, ...(verdict?.notes ?? []), ...(chemistry?.notes ?? [])];
  if (!calibrated)
    notes.push({
      code: 'uncalibrated',
      numbers: {},
      words:
        'The oil chemistry of this kind of engine is not calibrated: the interval rests on book, engine hours and calendar only; nitration decides, so sample the oil.',
    });
  return {
    interval: governing.at,
    left: governing.left,
    used: usedShare(governing, so),
    governing: governing.limit,
    limits,
    severityFactor: factor,
    calibrated,
    notes,
    sentence: intervalWords(governing, so, severe),
  };
}

const withFactor = (words: string, factor: number): string =>
  factor < 1 ? `${words}, times ${factor.toFixed(2)} for the fuel in the oil` : words;
