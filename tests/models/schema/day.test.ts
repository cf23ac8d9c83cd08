import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dayFromIso, isoDate, isoFromDay, monthOfDay } from '../../../models/schema/day.ts';

test('worked by hand: 1970-01-01 is day 0, 2000-03-01 is day 11017', () => {
  expect(dayFromIso('1970-01-01')).toBe(0);
  expect(dayFromIso('2000-03-01')).toBe(11017);
  expect(isoFromDay(11016)).toBe('2000-02-29');
  expect(monthOfDay(11016)).toBe(1);
});

test('against the calendar of the platform (ECMAScript Date, UTC)', () => {
  fc.assert(
    fc.property(fc.integer({ min: -50_000, max: 80_000 }), (day) => {
      const iso = new Date(day * 86_400_000).toISOString().slice(0, 10);
      expect(isoFromDay(day)).toBe(iso);
      expect(dayFromIso(iso)).toBe(day);
    }),
  );
});

test('a day that does not exist is refused', () => {
  expect(isoDate.safeParse('2026-02-29').success).toBe(false);
  expect(isoDate.safeParse('2024-02-29').success).toBe(true);
  expect(isoDate.safeParse('31.03.2026').success).toBe(false);
});
