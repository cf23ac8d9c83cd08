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
  expect(read('per 1000 km')).toBe(`per ${grouped(1000)} km`);
  expect(modelWords('about 2 700 km', 'metric')).toBe(`about ${grouped(2700)} km`);
});

test('a due meter stands in steps that tell it from the meter of today', () => {
  // by hand: 181,834 km to hundreds; 112,986 mi (1 mi = 1.609344 km, exact) to hundreds; 9,876 h to tens
  expect(odometerAt(181_834, 'metric')).toBe(`${grouped(181_800)} km`);
  expect(odometerAt(181_834, 'us')).toBe(`${grouped(113_000)} mi`);
  expect(odometerAt(null, 'us')).toBe('not known');
  expect(hourMeterAt(9_876)).toBe(`${grouped(9_880)} h`);
});

test('litres, degrees and oil use of a sentence are quarts, °F and quarts by distance there', () => {
  // NIST SP 811: 1 US liquid quart = 0.946 352 946 L, 1 gal = 4 qt; °F = 9/5 °C + 32; by hand: 5.8 L = 6.13 qt,
  // 0.56 L per 1000 km = 0.56 / 0.946353 · 1.609344 = 0.952 qt per 1000 mi; 68.4 L = 18.07 gal; 35 °C = 95 °F
  const read = (words: string): string => modelWords(words, 'us');
  expect(read('topped up 2 times, 1.5 L, of it 5W-30')).toBe('topped up 2 times, 1.6 qt, of it 5W-30');
  expect(read('4 to 5.8 L recorded')).toBe('4.2 to 6.1 qt recorded');
  expect(read('1.2 L in 2 100 km, 0.56 L per 1000 km; look')).toBe(
    `1.3 qt in ${grouped(1300)} mi, 0.95 qt per ${grouped(1000)} mi; look`,
  );
  expect(read('0.56 L/1 000 km')).toBe(`0.95 qt per ${grouped(1000)} mi`);
  expect(read('fuel, 68.4 L, 179294 km')).toBe(`fuel, 18.1 gal, ${grouped(111408)} mi`);
  expect(read('above 35 °C 20 % of the time, below -10 °C')).toBe(
    'above 95 °F 20 % of the time, below 14 °F',
  );
  expect(read('10W-30 cranks in a coldest month of 3 °C')).toBe('10W-30 cranks in a coldest month of 37 °F');
  // the temperatures of ASTM D445 name the viscosity; a laboratory's rates stay; what only looks like litres too
  for (const words of [
    'viscosity at 100 °C 10.14 is 99 % of fresh, 10.1 mm²/s at 100 °C',
    '0.58 mg KOH/g per 900 km',
    'L24-2202-417',
    '2 LH',
  ])
    expect(read(words)).toBe(words);
  for (const words of ['1.5 L of 5W-30', 'above 35 °C', '0.56 L per 900 km'])
    expect(modelWords(words, 'metric')).toBe(words);
});

test('a pressure is psi there, and one that came from psi has no digits that nobody measured', () => {
  // NIST SP 811: 1 psi = 6.894 757 kPa; by hand: 170 kPa = 24.66 psi, 100 kPa = 14.5 psi, 40 psi = 275.79 kPa
  expect(modelWords('hot idle pressure 170 kPa, least 100 kPa', 'us')).toBe(
    'hot idle pressure 25 psi, least 15 psi',
  );
  expect(modelWords('hot idle pressure: 275.790292 kPa', 'us')).toBe('hot idle pressure: 40 psi');
  expect(modelWords('hot idle pressure: 275.790292 kPa', 'metric')).toBe('hot idle pressure: 276 kPa');
  expect(modelWords('oil level low: 0.946352946 L', 'metric')).toBe(
    `oil level low: ${(0.95).toLocaleString()} L`,
  );
  expect(modelWords('viscosity 10.1234 mm²/s', 'metric')).toBe('viscosity 10.1234 mm²/s');
});

test('money of a sentence reads as the reader writes it; letters that are no currency stay', () => {
  // expected forms from the platform's locale data
  const whole = (value: number, currency: string): string =>
    value.toLocaleString(undefined, {
      style: 'currency',
      currency,
      minimumFractionDigits: 0,
      maximumFractionDigits: 0,
    });
  expect(modelWords('save 3000 to 9000 USD, about 6000 USD, a year', 'metric', 'USD')).toBe(
    `save ${whole(3000, 'USD')} to ${whole(9000, 'USD')}, about ${whole(6000, 'USD')}, a year`,
  );
  expect(modelWords('would take -120 EUR', 'us', 'EUR')).toBe(`would take ${whole(-120, 'EUR')}`);
  expect(modelWords('would take 181.35 USD', 'metric', 'USD')).toContain('181');
  for (const words of ['20 API SP', '3 ABC', '1.5 MPA'])
    expect(modelWords(words, 'metric', 'USD')).toBe(words);
  expect(modelWords('a timing-drive failure: fewer than 1 in 1000')).toBe(
    `a timing-drive failure: fewer than 1 in ${grouped(1000)}`,
  );
});
