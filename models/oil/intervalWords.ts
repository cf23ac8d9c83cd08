import type { GoverningLimit } from '../schema/assessment.ts';
import type { Amounts, Measure } from './amounts.ts';
import { wholeNumber } from './bookInterval.ts';

/** What each limit is, in words that go on "… governs". */
export const limitNames: Readonly<Record<GoverningLimit, string>> = {
  base_number: 'the base number (the oil’s reserve against acid)',
  acid_number: 'acid in the oil outgrowing its base number',
  additive: 'the antioxidant',
  oxidation: 'oxidation of the oil',
  soot: 'soot in the oil',
  dispersancy: 'dispersancy (the oil’s power to keep sludge afloat)',
  fuel: 'fuel in the oil',
  viscosity: 'the viscosity',
  book: 'the book interval',
  hours: 'the engine hours',
  calendar: 'the calendar',
};

const unitWords: Readonly<Record<Measure, string>> = {
  distanceKm: 'km',
  engineHours: 'engine hours',
  days: 'days',
};

/** One chemical limit in words: where it falls and how much of it is used; null: held off by a floor. */
export function limitWords(
  limit: GoverningLimit,
  total: number,
  measure: Measure,
  scale: number | null,
): string {
  const where = `${wholeNumber(total)} ${unitWords[measure]}`;
  if (scale === null)
    return `${limitNames[limit]} reaches its limit through fuel at ${where} on this duty; find the source, the interval is not cut further for it`;
  return scale < 1
    ? `${limitNames[limit]} reaches its limit at ${where} on this duty; ${Math.round(scale * 100)} % of that is used`
    : `${limitNames[limit]} reaches its limit at ${where} on this duty`;
}

/** The interval as a sentence to repeat to a driver. */
export function intervalWords(
  governing: { readonly limit: GoverningLimit; readonly at: Amounts; readonly words: string },
  so: Amounts,
  severe: boolean,
): string {
  const { at, limit, words } = governing;
  const parts = [
    at.distanceKm > 0 ? `${wholeNumber(at.distanceKm)} km` : null,
    at.engineHours > 0 ? `${wholeNumber(at.engineHours)} engine hours` : null,
    `${wholeNumber(at.days)} days`,
  ].filter((part) => part !== null);
  const due =
    so.days > 0 && so.days >= at.days
      ? `The oil is past its interval of ${parts.join(', ')}.`
      : `Change the oil at ${parts.join(', ')} after the last change, whichever comes first.`;
  const why = `${limitNames[limit]} governs`;
  return `${due} ${why[0].toUpperCase()}${why.slice(1)}${severe ? ' (severe service)' : ''}: ${words}.`;
}
