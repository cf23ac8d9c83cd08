import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compileRowReader, type RowRead } from '../../../models/intake/readRow.ts';
import { recognise } from '../../../models/intake/recognise.ts';
import type { RecogniseOptions } from '../../../models/intake/recognised.ts';
import { columnSynonyms, vocabularyOf } from '../../../models/intake/synonyms.ts';
import { vinCheckCharacter, vinCheckHolds } from '../../../models/intake/vin.ts';
import { compileWorkWords, workWordsFile } from '../../../models/intake/workWords.ts';
import { readWork } from '../../../models/intake/workText.ts';
import { recordKinds } from '../../../models/schema/kinds.ts';
import synonymsFile from '../../../data/catalog/column-synonyms.json';
import wordsFile from '../../../data/catalog/work-words.json';

const vocabulary = vocabularyOf(columnSynonyms.parse(synonymsFile));
const words = compileWorkWords(workWordsFile.parse(wordsFile));
const asOf = '2024-06-01';
const isSoak = process.env.SOAK === '1';

function readAll(headers: string[], rows: string[][], stem: string, options: RecogniseOptions = {}) {
  const recognised = recognise(headers, rows, stem, vocabulary, options);
  const read = recognised.kind === null ? null : compileRowReader(recognised, vocabulary, { asOf });
  return { recognised, rows: rows.map((cells): RowRead | null => read?.(cells) ?? null) };
}
const codesOf = (row: RowRead | null | undefined) =>
  row?.ok === false ? row.reasons.map(({ code }) => code) : [];

describe('what a table leaves open is asked', () => {
  const asked = (headers: string[], rows: string[][], stem = 'readings') =>
    recognise(headers, rows, stem, vocabulary).questions.map(({ code }) => code);

  test('dates that read both ways, a meter without unit, numbers with either mark', () => {
    expect(asked(['unit', 'date', 'km'], [['7', '03/04/2024', '1200']])).toEqual(['date_order']);
    expect(asked(['unit', 'date', 'odometer'], [['7', '2024-03-04', '1200']])).toEqual(['distance_unit']);
    expect(
      asked(
        ['unit', 'date', 'engine hours'],
        [
          ['7', '2024-03-04', '1,204'],
          ['8', '2024-03-04', '2,310'],
        ],
      ),
    ).toEqual(['decimal_mark']);
  });
  test('one date that reads one way settles the column; two that contradict are asked about', () => {
    const rows = (...dates: string[]) => dates.map((date) => ['7', date, '1200']);
    expect(asked(['unit', 'date', 'km'], rows('03/04/2024', '25/04/2024'))).toEqual([]);
    expect(asked(['unit', 'date', 'km'], rows('25/04/2024', '04/25/2024'))).toEqual(['date_order_mixed']);
  });
  test('two columns for one field', () => {
    expect(asked(['unit', 'date', 'odo km', 'mileage km'], [['7', '2024-03-04', '1200', '1300']])).toContain(
      'two_columns_one_field',
    );
  });
});

describe('rows', () => {
  test('idle hours above engine hours, a date to come, a negative meter are held with their reasons', () => {
    const { rows } = readAll(
      ['unit_number', 'read_on', 'odometer_km', 'engine_hours_h', 'idle_hours_h'],
      [
        ['7', '2024-03-04', '1200', '100', '140'],
        ['7', '2025-03-04', '1200', '', ''],
        ['7', '2024-03-04', '-5', '', ''],
        ['', '2024-03-04', '5', '', ''],
      ],
      'readings',
    );
    expect(rows.map(codesOf)).toEqual([
      ['idle_above_hours'],
      ['date_future'],
      ['negative'],
      ['missing_required'],
    ]);
  });
  test('units inside cells win over the column', () => {
    const { rows } = readAll(
      ['unit_number', 'read_on', 'odometer_km'],
      [['7', '2024-03-04', '84,210 mi']],
      'readings',
      { decimal: '.' },
    );
    expect(rows[0]).toMatchObject({ ok: true });
    if (rows[0]?.ok === true) expect(rows[0].record['odometerKm']).toBeCloseTo(84_210 * 1.609344, 5);
  });
  test('the check character of a vehicle number is worked out as 49 CFR 565.15 does, and a wrong one remarked on', () => {
    // Eleven ones after the table's own rule: every place counts 1, the sum of the weights is 89, 89 mod 11 is 1.
    expect(vinCheckCharacter('11111111111111111')).toBe('1');
    expect(vinCheckHolds('11111111111111111')).toBe(true);
    expect(vinCheckHolds('11111111211111111')).toBe(false);
    const { rows } = readAll(['unit_number', 'vin'], [['7', '11111111211111111']], 'units');
    expect(rows[0]).toMatchObject({ ok: true, remarks: [{ code: 'vin_check_digit' }] });
  });
});

test('units of measure do not change the record', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 300_000 }), fc.integer({ min: 1, max: 400 }), (miles, quarts) => {
      const us = readAll(
        ['unit_number', 'serviced_on', 'odometer_mi', 'oil_qt', 'work'],
        [['7', '2024-03-04', String(miles), String(quarts / 10), 'LOF']],
        'service',
      ).rows[0];
      const metric = readAll(
        ['unit_number', 'serviced_on', 'odometer_km', 'oil_l', 'work'],
        [['7', '2024-03-04', String(miles * 1.609344), String((quarts / 10) * 0.946352946), 'LOF']],
        'service',
        { decimal: '.' },
      ).rows[0];
      expect(us?.ok).toBe(true);
      if (us?.ok !== true || metric?.ok !== true) return;
      for (const field of ['odometerKm', 'oilL'])
        expect(us.record[field]).toBeCloseTo(Number(metric.record[field]), 6);
    }),
    { numRuns: 100, seed: 21 },
  );
});

const cell = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.constantFrom(
    '',
    '-',
    '1.234,5',
    '1,234.5',
    '84,210 mi',
    '5 qt',
    '45311',
    '03/04/24',
    '12. März 2024',
    '$ 5',
    'P0011',
  ),
  fc.double().map(String),
  fc.date({ noInvalidDate: true }).map((date) => date.toISOString()),
);

test('random tables never crash the reading, and no number comes out that is none', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.oneof(fc.string({ maxLength: 20 }), fc.constantFrom('unit', 'date', 'km', 'work', 'Iron ppm')),
        {
          minLength: 1,
          maxLength: 6,
        },
      ),
      fc.array(fc.array(cell, { minLength: 6, maxLength: 6 }), { minLength: 1, maxLength: 4 }),
      fc.constantFrom(...recordKinds),
      (headers, rows, kind) => {
        const read = readAll(
          headers,
          rows.map((row) => row.map((text) => text.trim())),
          'x',
          { kind },
        );
        for (const row of read.rows) {
          if (row?.ok !== true) continue;
          for (const value of Object.values(row.record))
            if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        }
      },
    ),
    { numRuns: isSoak ? 100_000 : 300, seed: 22 },
  );
}, 1_800_000);

test('random texts never crash the reading of work, and what is not known is `other` without confidence', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (text) => {
      const { works, confidence } = readWork(text, words);
      expect(works.length).toBeGreaterThan(0);
      expect(confidence).toBeGreaterThanOrEqual(0);
      expect(confidence).toBeLessThanOrEqual(1);
    }),
    { numRuns: isSoak ? 100_000 : 500, seed: 23 },
  );
  expect(readWork('zxqv brrt', words)).toMatchObject({ works: ['other'] });
  expect(readWork('zxqv brrt', words).confidence).toBeLessThan(0.5);
}, 1_800_000);
