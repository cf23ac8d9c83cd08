import { describe, expect, test } from 'vitest';
import { scheduleCaps, type BookInterval } from '../../../models/oil/bookInterval.ts';
import { coefficients } from './catalog.ts';

const book: BookInterval = {
  intervalKm: 10_000,
  intervalMonths: 12,
  severeIntervalKm: 6000,
  severeIntervalMonths: 6,
  hoursLimitH: null,
};
const approved = { intervalKm: 14_000, by: 'Ines Farrow', on: '2026-05-04' };
const adopted = { intervalKm: 8000, by: 'Bo Lind', on: '2026-06-01' };
const caps = (over: Partial<BookInterval>, severe = false) =>
  scheduleCaps({ ...book, ...over }, severe, 0.1, 'PFI', coefficients);
const codes = (over: Partial<BookInterval>, severe = false) =>
  caps(over, severe).notes.map(({ code }) => code);

// rules of the product, no source; the numbers are those above
describe('the book, an own approval and a policy of the duty', () => {
  test('the book alone, by service class', () => {
    expect(caps({}).bookKm).toBe(10_000);
    expect(caps({}, true).bookKm).toBe(6000);
    expect(caps({ severeIntervalKm: null, severeIntervalMonths: null }, true).bookKm).toBe(
      10_000 * coefficients['oil.severe_book_factor']!,
    );
  });
  test('a policy caps the book and never lengthens it', () => {
    expect(caps({ adopted }).bookKm).toBe(8000);
    expect(codes({ adopted })).toEqual(['policy_adopted']);
    expect(caps({ adopted: { ...adopted, intervalKm: 12_000 } }).bookKm).toBe(10_000);
    expect(caps({ adopted }, true).bookKm).toBe(6000);
  });
  test('an own approved longer interval goes before the policy, whichever came last', () => {
    const both = caps({ adopted, approved });
    expect(both.bookKm).toBe(14_000);
    expect(both.notes.map(({ words }) => words)).toEqual([
      "Ines Farrow approved 14 000 km on 2026-05-04 in place of the book's 10 000 km and of the 8 000 km adopted for its duty; every other limit still holds.",
    ]);
    expect(both.bookWords).toContain('approved by Ines Farrow');
    expect(both.bookMonths).toBe(12);
  });
  test('an approval that is no longer than the book lifts nothing, so the policy caps', () => {
    const short = { ...approved, intervalKm: 10_000 };
    expect(caps({ adopted, approved: short }).bookKm).toBe(8000);
    expect(codes({ approved: short })).toEqual([]);
  });
});
