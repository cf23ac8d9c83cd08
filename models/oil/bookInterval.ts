import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './conditionCoefficients.ts';
import type { FuelSystem } from './exposure.ts';

/** What the maker's schedule says; null: not recorded. */
export interface BookInterval {
  readonly intervalKm: number | null;
  readonly intervalMonths: number | null;
  readonly severeIntervalKm: number | null;
  readonly severeIntervalMonths: number | null;
  readonly hoursLimitH: number | null;
  /** a longer distance that a named person approved on samples and an inspection; left out: none */
  readonly approved?: { readonly intervalKm: number; readonly by: string; readonly on: string };
  /** a distance that a named person adopted for the unit's duty; its own approved one goes before it; left out: none */
  readonly adopted?: { readonly intervalKm: number; readonly by: string; readonly on: string };
}

/** Something to say beside an interval: a code to act on, the numbers in it, a plain sentence. */
export interface IntervalNote {
  readonly code: string;
  readonly numbers: Readonly<Record<string, number>>;
  readonly words: string;
}

/** An estimate in words, two significant digits: 8156 → 8 200. */
export function aboutNumber(value: number): string {
  return wholeNumber(Number(value.toPrecision(2)));
}

/** The limits that do not come from chemistry. */
export interface ScheduleCaps {
  readonly bookKm: number | null;
  readonly bookMonths: number | null;
  readonly hours: number;
  readonly months: number;
  readonly bookWords: string;
  readonly hoursWords: string;
  readonly calendarWords: string;
  readonly notes: readonly IntervalNote[];
}

/** A whole number with thin groups, as in 12 500. */
export function wholeNumber(value: number): string {
  return String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ' ');
}

/**
 * The book interval of the service class, the hours cap and the calendar cap.
 * Where the severe interval is missing the normal one is taken times a stated factor; where the maker gives no hours
 * limit the default of the fuel system holds, a lower one for a unit that idles much. An approved longer distance takes
 * the place of the book's distance and of nothing else; a distance adopted for the duty caps a unit without one.
 * @param idleShare of engine hours, 0..1
 * @param severeFactor factor for a missing severe interval, 0..1; left out: `oil.severe_book_factor`
 * @returns e.g. severe, book 10000 km without a severe interval → bookKm 5000 and a note that says so
 * Source: makers publish a normal and a severe schedule; caps by common practice, no source.
 */
export function scheduleCaps(
  book: BookInterval,
  severe: boolean,
  idleShare: number,
  fuelSystem: FuelSystem,
  coefficients: Coefficients,
  severeFactor?: number,
): ScheduleCaps {
  const value = (id: string) => coefficientValue(coefficients, `oil.${id}`);
  const factor = severeFactor ?? value('severe_book_factor');
  const notes: IntervalNote[] = [];
  const ofClass = (normal: number | null, severeOne: number | null): number | null => {
    if (!severe) return normal;
    if (severeOne !== null) return normal === null ? severeOne : Math.min(normal, severeOne);
    return normal === null ? null : normal * factor;
  };
  const ownKm = ofClass(book.intervalKm, book.severeIntervalKm);
  const lifted = book.approved !== undefined && ownKm !== null && book.approved.intervalKm > ownKm;
  const allowedKm = lifted ? book.approved.intervalKm : ownKm;
  const { adopted } = book;
  const caps = adopted !== undefined && (allowedKm === null || adopted.intervalKm < allowedKm);
  // what a person approved for this very unit, on its own samples, goes before what holds for its duty
  const capped = caps && !lifted;
  const bookKm = capped ? adopted.intervalKm : allowedKm;
  const bookMonths = ofClass(book.intervalMonths, book.severeIntervalMonths);
  if (severe && book.severeIntervalKm === null && book.intervalKm !== null)
    notes.push({
      code: 'severe_book_missing',
      numbers: { factor, intervalKm: book.intervalKm },
      words: `The maker's severe interval is not recorded; the normal ${wholeNumber(book.intervalKm)} km is taken times ${Number(factor.toFixed(2))}.`,
    });
  if (lifted)
    notes.push({
      code: 'book_lifted',
      numbers: { intervalKm: book.approved.intervalKm, bookKm: ownKm },
      words: `${book.approved.by} approved ${wholeNumber(book.approved.intervalKm)} km on ${book.approved.on} in place of the book's ${wholeNumber(ownKm)} km${caps ? ` and of the ${wholeNumber(adopted.intervalKm)} km adopted for its duty` : ''}; every other limit still holds.`,
    });
  if (capped)
    notes.push({
      code: 'policy_adopted',
      numbers: { intervalKm: adopted.intervalKm, ...(allowedKm === null ? {} : { bookKm: allowedKm }) },
      words: `The policy adopted by ${adopted.by} on ${adopted.on} caps the distance at ${wholeNumber(adopted.intervalKm)} km${allowedKm === null ? '' : ` in place of ${wholeNumber(allowedKm)} km`}.`,
    });
  if (bookKm === null)
    notes.push({
      code: 'book_missing',
      numbers: {},
      words: 'No book distance is recorded for this engine; record it, it caps the interval.',
    });

  const idling = idleShare > value('idling_share');
  const ownHours = book.hoursLimitH;
  const hours = ownHours ?? value(`${idling ? 'hours_cap_idling' : 'hours_cap'}.${fuelSystem}`);
  const months = value(severe ? 'calendar_months_severe' : 'calendar_months');
  const serviceClass = severe ? 'severe' : 'normal';
  const parts = [
    bookKm === null ? null : `${wholeNumber(bookKm)} km`,
    bookMonths === null ? null : `${Number(bookMonths.toFixed(1))} months`,
  ].filter((part) => part !== null);
  const derived = severe && book.severeIntervalKm === null && book.severeIntervalMonths === null;
  return {
    bookKm,
    bookMonths,
    hours,
    months,
    bookWords:
      parts.length === 0
        ? 'no book interval is recorded'
        : capped
          ? `the policy adopted by ${adopted.by} on ${adopted.on}: ${parts.join(' or ')}`
          : lifted
            ? `the interval approved by ${book.approved.by}: ${parts.join(' or ')}`
            : derived
              ? `the book's normal interval times ${Number(factor.toFixed(2))}: ${parts.join(' or ')}`
              : `the book's ${serviceClass} interval: ${parts.join(' or ')}`,
    hoursWords:
      ownHours !== null
        ? `the maker's limit of ${wholeNumber(hours)} engine hours`
        : `at most ${wholeNumber(hours)} engine hours on a charge${idling ? ' for a unit that idles much' : ''} (common practice)`,
    calendarWords: `at most ${months} months on a charge in ${serviceClass} service`,
    notes,
  };
}
