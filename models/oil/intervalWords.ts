import type { GoverningLimit } from '../schema/assessment.ts';
import type { Amounts, Measure } from './amounts.ts';
import { aboutNumber, wholeNumber } from './bookInterval.ts';
import type { IntervalLine } from './intervalLine.ts';

/** Limits that are set by rule and carry no doubt of their own. */
export const scheduledLimits: ReadonlySet<GoverningLimit> = new Set(['book', 'hours', 'calendar']);

/** What each limit is, in words that go on "… reaches its limit". */
export const limitNames: Readonly<Record<GoverningLimit, string>> = {
  base_number: 'the base number (the oil’s reserve against acid)',
  acid_number: 'acid in the oil outgrowing its base number',
  additive: 'the antioxidant',
  oxidation: 'oxidation of the oil',
  soot: 'soot in the oil',
  dispersancy: 'dispersancy (the oil’s power to keep sludge afloat)',
  fuel: 'the fuel share',
  viscosity: 'the viscosity',
  book: 'the book interval',
  hours: 'the engine hours',
  calendar: 'the calendar',
};

/** The measures in words after a number. */
export const measureWords: Readonly<Record<Measure, string>> = {
  distanceKm: 'km',
  engineHours: 'engine hours',
  days: 'days',
};

/**
 * One chemical limit in words: where it falls and how much of it is used; null: held off by a floor.
 * @param withoutIdling the limit is nearer without the duty's idling, which boils fuel off
 */
export function limitWords(
  limit: GoverningLimit,
  total: number,
  measure: Measure,
  scale: number | null,
  withoutIdling: boolean,
): string {
  const where = `about ${aboutNumber(total)} ${measureWords[measure]} on this duty${withoutIdling ? ' without its idling' : ''}`;
  if (scale === null)
    return `fuel takes ${limitNames[limit]} to its limit at ${where}; find the source, the interval is not cut further for it`;
  return scale < 1
    ? `${limitNames[limit]} reaches its limit at ${where}; the interval takes ${Math.round(scale * 100)} % of it`
    : `${limitNames[limit]} reaches its limit at ${where}`;
}

/**
 * The interval as a sentence to repeat to a driver. What a schedule sets is said as it stands, all else to two digits.
 */
export function intervalWords(
  governing: Pick<IntervalLine, 'limit' | 'measure' | 'at' | 'words'>,
  so: Amounts,
  severe: boolean,
): string {
  const { at, words } = governing;
  const said = (measure: Measure): string =>
    scheduledLimits.has(governing.limit) && governing.measure === measure
      ? `${wholeNumber(at[measure])} ${measureWords[measure]}`
      : `about ${aboutNumber(at[measure])} ${measureWords[measure]}`;
  const parts = [
    ...(at.distanceKm > 0 ? [said('distanceKm')] : []),
    ...(at.engineHours > 0 ? [said('engineHours')] : []),
    said('days'),
  ];
  const listed = parts.length < 2 ? parts[0] : `${parts.slice(0, -1).join(', ')} or ${parts.at(-1)}`;
  const due =
    so.days > 0 && so.days >= at.days
      ? `The oil is past its interval of ${listed}.`
      : `Change the oil ${listed} after the last change, whichever comes first.`;
  return `${due} What decides${severe ? ' (severe service)' : ''}: ${words}.`;
}
