import type { GoverningLimit } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Amounts, Measure } from './amounts.ts';
import { addAmounts, amountsOf, leadingMeasure, pointAhead, timesAmounts } from './amounts.ts';
import type { BookInterval, IntervalNote } from './bookInterval.ts';
import { scheduleCaps } from './bookInterval.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { Exposure, OilEngine, OilFill, OilState, RateMultipliers } from './exposure.ts';
import type { FuelVerdict } from './fuelVerdict.ts';
import { fuelVerdict } from './fuelVerdict.ts';
import { intervalWords, limitWords } from './intervalWords.ts';
import { limitReach } from './limitReach.ts';
import type { LimitsAhead } from './limitsAhead.ts';
import { limitsAhead } from './limitsAhead.ts';

/** What an interval is asked for. */
export interface IntervalQuestion {
  /** the duty to come, in order of time (one mean stretch, or month by month); the last goes on for ever */
  readonly coming: readonly Exposure[];
  readonly engine: OilEngine;
  readonly fill: OilFill;
  readonly rates: RateMultipliers;
  readonly book: BookInterval;
  /** severe service by the duty */
  readonly severe: boolean;
  /** factor on a missing severe book interval, 0..1; left out: the catalog's */
  readonly severeFactor?: number;
  /** the charge so far; left out: fresh oil */
  readonly soFar?: { readonly state: OilState; readonly exposure: Exposure };
}

/** One limit of the interval. */
export interface LimitMargin {
  readonly limit: GoverningLimit;
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

interface Candidate {
  readonly limit: GoverningLimit;
  readonly at: Amounts;
  readonly left: Amounts;
  readonly words: string;
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
  const candidates: Candidate[] = [];
  const cap = (limit: GoverningLimit, measure: Measure, amount: number | null, words: string) => {
    if (amount === null) return;
    const scaled = amount * factor;
    const left = pointAhead(coming, measure, scaled - so[measure]);
    if (left !== null)
      candidates.push({
        limit,
        left,
        at: passedAt(so, left, measure, scaled),
        words: withFactor(words, factor),
      });
  };
  const days = 365.25 / 12;
  cap('book', 'distanceKm', caps.bookKm, caps.bookWords);
  cap('book', 'days', caps.bookMonths === null ? null : caps.bookMonths * days, caps.bookWords);
  cap('hours', 'engineHours', caps.hours, caps.hoursWords);
  cap('calendar', 'days', caps.months * days, caps.calendarWords);
  if (verdict !== null) candidates.push(...chemistry(question, so, verdict, candidates, coefficients));

  const governing = candidates.reduce((a, b) => (reached(b, so) < reached(a, so) ? b : a));
  const limits = onePerLimit(candidates, so).map((line): LimitMargin => ({
    ...line,
    used: usedShare(line, so),
    margin: Math.max(0, reached(line, so) / Math.max(1e-9, reached(governing, so)) - 1),
  }));
  const notes = [...caps.notes, ...(verdict?.notes ?? [])];
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

/** The limits of chemistry, with the share of them that is used and the severity factor. */
function chemistry(
  question: IntervalQuestion,
  so: Amounts,
  verdict: FuelVerdict,
  schedule: readonly Candidate[],
  coefficients: Coefficients,
): Candidate[] {
  const { coming, engine, fill, rates, soFar } = question;
  const share = coefficientValue(coefficients, 'oil.interval_share');
  const ahead = limitsAhead(coming, engine, fill, rates, coefficients, soFar?.state);
  const past = soFar ? limitReach(soFar.exposure, engine, fill, rates, coefficients) : null;
  const measure = leadingMeasure(addAmounts(so, amountsOf(coming[coming.length - 1])));
  const found: Candidate[] = [];
  const add = (limit: GoverningLimit, name: keyof LimitsAhead, scale: number, floor = 0) => {
    const left = ahead[name];
    if (left === null) return;
    const times = past === null || name === 'thinning' ? 1 : past.times[name];
    const total = left[measure] > 0 ? so[measure] + left[measure] : so[measure] * Math.min(1, times);
    const scaled = Math.max(floor, total * scale);
    const from = pointAhead(coming, measure, scaled - so[measure]);
    if (from !== null)
      found.push({
        limit,
        left: from,
        at: passedAt(so, from, measure, scaled),
        words: limitWords(limit, total, measure, scaled > total * scale ? null : scale),
      });
  };
  const { factor } = verdict;
  for (const name of ['base_number', 'additive', 'oxidation', 'soot'] as const)
    add(name, name, share * factor);
  add('dispersancy', 'dispersancy', share);
  add('acid_number', 'acid_number', factor);
  if (!verdict.settles) {
    const others = [...schedule, ...found].map((line) => line.at[measure]);
    const floor = coefficientValue(coefficients, 'oil.fuel_severity_floor') * Math.min(...others);
    add('fuel', 'fuel', share, floor);
    add('viscosity', 'thinning', share, floor);
  }
  add('viscosity', 'viscosity', share * factor);
  return found;
}

const withFactor = (words: string, factor: number): string =>
  factor < 1 ? `${words}, times ${factor.toFixed(2)} for the fuel in the oil` : words;

/** Where a limit stands since the change: so far plus what is left; when passed, the past in proportion. */
function passedAt(so: Amounts, left: Amounts, measure: Measure, scaled: number): Amounts {
  if (left[measure] > 0 || so[measure] <= 0) return addAmounts(so, left);
  return timesAmounts(so, scaled / so[measure]);
}

/** Days since the change at which a limit falls; the order of limits in time. */
function reached(line: Candidate, so: Amounts): number {
  return line.left.days > 0 ? so.days + line.left.days : line.at.days;
}

function usedShare(line: Candidate, so: Amounts): number {
  const measure = leadingMeasure(line.at);
  return line.at[measure] > 0 ? so[measure] / line.at[measure] : 1;
}

function onePerLimit(candidates: readonly Candidate[], so: Amounts): Candidate[] {
  const nearest = new Map<GoverningLimit, Candidate>();
  for (const line of candidates) {
    const known = nearest.get(line.limit);
    if (known === undefined || reached(line, so) < reached(known, so)) nearest.set(line.limit, line);
  }
  return [...nearest.values()].sort((a, b) => reached(a, so) - reached(b, so));
}
