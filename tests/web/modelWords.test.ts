import { expect, test } from 'vitest';
import { hourMeterAt, odometerAt } from '../../web/format/measures.ts';
import { modelWords } from '../../web/format/modelWords.ts';

// expected forms from the platform's own locale data (CLDR), not from our formatter
const day = (year: number, month: number, at: number): string =>
  new Date(Date.UTC(year, month - 1, at)).toLocaleDateString(undefined, {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: 'UTC',
  });
const grouped = (value: number): string => value.toLocaleString();

test('days and thousands of a sentence read as in tables; what only looks like them stays', () => {
  expect(modelWords('code P0016 (2026-10-27), sample of 2024-02-29: look')).toBe(
    `code P0016 (${day(2026, 10, 27)}), sample of ${day(2024, 2, 29)}: look`,
  );
  expect(modelWords('about 2 500 km or 1 200 engine hours, 12 500 or 190 h')).toBe(
    `about ${grouped(2500)} km or ${grouped(1200)} engine hours, ${grouped(12500)} or 190 h`,
  );
  expect(modelWords('0.58 mg KOH/g per 1000 km')).toBe(`0.58 mg KOH/g per ${grouped(1000)} km`);
  // not a day, a number within a number, units by number, decimals
  for (const words of ['2025-02-30', 'WO-2026-10-27-3', 'unit 2202 is due', '0.12345 km', 'bank 1, 200 km'])
    expect(modelWords(words)).toBe(words);
});

test('distances of a sentence are miles for a reader of miles', () => {
  // by hand with 1 mi = 1.609344 km: 2700 → 1678, 2500 → 1553, 12 000 → 7456, 2.4 → 1.49, 27 → 16.8, 30 → 18.6
  const read = (words: string): string => modelWords(words, 'us');
  expect(read('Change the oil about 2 700 km or 150 engine hours after')).toBe(
    `Change the oil about ${grouped(1700)} mi or 150 engine hours after`,
  );
  expect(read('the normal 12 000 km is taken times 0.5')).toBe(
    `the normal ${grouped(7500)} mi is taken times 0.5`,
  );
  expect(read('mean trip 2.4 km (limit 15 %); 27 km/h (limit 30 km/h)')).toBe(
    'mean trip 1.5 mi (limit 15 %); 17 mph (limit 19 mph)',
  );
  expect(read('between 2500 and 12 000 km')).toBe(`between ${grouped(1600)} and ${grouped(7500)} mi`);
  expect(read('0.56 L per 1000 km')).toBe(`0.56 L per ${grouped(1000)} km`);
  expect(modelWords('about 2 700 km', 'metric')).toBe(`about ${grouped(2700)} km`);
});

test('a due meter stands in steps that tell it from the meter of today', () => {
  // by hand: 181,834 km to hundreds; 112,986 mi (1 mi = 1.609344 km, exact) to hundreds; 9,876 h to tens
  expect(odometerAt(181_834, 'metric')).toBe(`${grouped(181_800)} km`);
  expect(odometerAt(181_834, 'us')).toBe(`${grouped(113_000)} mi`);
  expect(odometerAt(null, 'us')).toBe('not known');
  expect(hourMeterAt(9_876)).toBe(`${grouped(9_880)} h`);
});
