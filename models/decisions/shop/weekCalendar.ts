import type { DaySpan, ShopSite, ShopUnit, Weekdays } from './shopInputs.ts';

/**
 * Weekday of a day number, 0 = Monday. 1970-01-01 was a Thursday.
 * @param day days since 1970-01-01, whole
 * @returns 0..6; 20543 (2026-03-31) → 1
 */
export function weekdayOf(day: number): number {
  return (((day + 3) % 7) + 7) % 7;
}

/** The Monday on or before a day. */
export function mondayOf(day: number): number {
  return day - weekdayOf(day);
}

/** Whether a day lies within one of the spans. */
export function spanHolds(spans: readonly DaySpan[], day: number): boolean {
  return spans.some((span) => day >= span.fromDay && day <= span.toDay);
}

/** Whether a site works on a day. */
export function isOpen(site: ShopSite, day: number): boolean {
  return site.weekdays[weekdayOf(day)] && !site.holidays.includes(day);
}

/** Whether a unit can be spared on a day. */
export function canBeSpared(unit: ShopUnit, day: number): boolean {
  return !unit.blackoutWeekdays[weekdayOf(day)] && !spanHolds(unit.blackouts, day);
}

const names = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/**
 * Reads `mon-fri`, `mon,tue,sat` or a mix of both; a span may run over the end of the week (`sat-mon`).
 * @returns Monday to Sunday, or null where the text is something else
 */
export function weekdaysFromText(text: string): Weekdays | null {
  const days = names.map(() => false);
  for (const piece of text
    .toLowerCase()
    .split(/[,;\s]+/)
    .filter((word) => word !== '')) {
    const ends = piece.split('-');
    const from = names.indexOf(ends[0].slice(0, 3));
    const to = names.indexOf(ends[ends.length - 1].slice(0, 3));
    if (from < 0 || to < 0 || ends.length > 2) return null;
    for (let day = from; ; day = (day + 1) % 7) {
      days[day] = true;
      if (day === to) break;
    }
  }
  return days.includes(true) ? days : null;
}
