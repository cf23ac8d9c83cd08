import { dayFromIso } from '../../models/schema/day.ts';

const long = new Intl.DateTimeFormat(undefined, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});
const short = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', timeZone: 'UTC' });

const asDate = (iso: string): Date => new Date(dayFromIso(iso) * 86_400_000);

/** "31 Mar 2026" in the reader's language. */
export function date(iso: string | null): string {
  return iso === null ? 'not known' : long.format(asDate(iso));
}

/** "31 Mar" in the reader's language. */
export function dayAndMonth(iso: string): string {
  return short.format(asDate(iso));
}

const clock = new Intl.DateTimeFormat(undefined, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: 'numeric',
  minute: '2-digit',
});

/** "31 Mar 2026, 14:05" at the reader's own clock, of a moment in ISO form. */
export function moment(iso: string): string {
  return clock.format(new Date(iso));
}

const monthOfYear = new Intl.DateTimeFormat(undefined, { month: 'short', year: 'numeric', timeZone: 'UTC' });

/** "Mar 2026" of "2026-03". */
export function monthName(month: string): string {
  return monthOfYear.format(asDate(`${month}-01`));
}

/** The first day of the week that a day lies in, days since 1970-01-01 (a Thursday). */
export function weekStart(day: number, firstDay: 'monday' | 'sunday'): number {
  return day - ((day + (firstDay === 'monday' ? 3 : 4)) % 7);
}

/** Whole days from one date to another. */
export function daysBetween(from: string, to: string): number {
  return dayFromIso(to) - dayFromIso(from);
}

/** "in 9 days", "today", "12 days ago". */
export function fromNow(asOf: string, iso: string): string {
  const days = daysBetween(asOf, iso);
  if (days === 0) return 'today';
  const amount = Math.abs(days);
  const words =
    amount < 60 ? `${amount} ${amount === 1 ? 'day' : 'days'}` : `${Math.round(amount / 30.4)} months`;
  return days > 0 ? `in ${words}` : `${words} ago`;
}
