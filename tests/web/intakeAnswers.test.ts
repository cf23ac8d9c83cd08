import { expect, test } from 'vitest';
import { columnsOf } from '../../models/schema/columns.ts';
import type { IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import { keptValue } from '../../web/format/keptValue.ts';
import { columnWords, fieldWords, kindName } from '../../web/format/fieldWords.ts';
import { answered, tellColumn } from '../../web/parts/intakeAnswers.ts';

const ask = (file: string, code: string, column: string | null, field: string | null): IntakeQuestion => ({
  ...{ file, code, column, field },
  question: '',
  choices: [],
  answerWith: '',
});
const understood = (header: string, field: string) => ({ header, field, unit: null, confidence: 1, why: '' });
const report: IntakeReport = {
  batch: null,
  committed: false,
  reasons: [],
  questions: [
    ask('codes.csv', 'date_order', 'Seen', 'seenOn'),
    ask('log.csv', 'date_order', 'Read', 'readOn'),
    ask('log.csv', 'distance_unit', 'Meter', 'odometerKm'),
  ],
  files: ['codes.csv', 'log.csv'].map((file) => ({
    file,
    kind: 'codes',
    ...{ rowsRead: 0, accepted: 0, duplicates: 0, held: 0, rejected: 0 },
    columns: [understood('Seen', 'seenOn'), understood('Read', 'readOn'), understood('Meter', 'odometerKm')],
  })),
};

test('one word on the order of days settles every column that asks for it, a unit of measure its own alone', () => {
  const days = answered(report, report.questions[0]!, {}, 'mdy');
  expect(days).toEqual({
    corrections: {
      'codes.csv': { Seen: { field: 'seenOn', dateOrder: 'mdy' } },
      'log.csv': { Read: { field: 'readOn', dateOrder: 'mdy' } },
    },
  });
  const unit = answered(report, report.questions[2]!, days!, 'mi');
  expect(unit?.corrections?.['log.csv']).toEqual({
    Read: { field: 'readOn', dateOrder: 'mdy' },
    Meter: { field: 'odometerKm', unit: 'mi' },
  });
  // the unit of another field does not stay
  expect(
    tellColumn(unit!, 'log.csv', 'Meter', { field: 'engineHoursH' }).corrections?.['log.csv']?.Meter,
  ).toEqual({
    field: 'engineHoursH',
  });
});

test('a kind, a missing column, a decimal mark and a column to leave out are answered for their own file', () => {
  const of = (code: string, column: string | null, field: string | null, choice: string) =>
    answered(report, ask('log.csv', code, column, field), {}, choice);
  expect(of('kind_unclear', null, null, 'readings')).toEqual({ kinds: { 'log.csv': 'readings' } });
  expect(of('column_missing', null, 'unitNumber', 'Truck')).toEqual({
    corrections: { 'log.csv': { Truck: { field: 'unitNumber' } } },
  });
  expect(of('decimal_mark', 'Meter', 'odometerKm', ',')).toEqual({
    corrections: { 'log.csv': { Meter: { field: 'odometerKm', decimal: ',' } } },
  });
  expect(of('currency_mixed', 'Cost', 'costCents', 'leave out')).toEqual({
    corrections: { 'log.csv': { Cost: { field: null } } },
  });
  expect(of('corrected_file', null, null, 'add')).toEqual({ corrected: 'add' });
  expect(of('another', null, null, '')).toBeNull();
});

test('fields are words without the unit that they are stored in, and no two of a kind read the same', () => {
  expect(fieldWords('readings', 'odometerKm')).toBe('odometer');
  expect(fieldWords('units', 'inServiceOn')).toBe('in service on');
  expect(kindName('blackouts')).toBe('days when a unit is not spared');
  for (const kind of recordKinds) {
    const words = columnsOf(kind).map(columnWords);
    expect(new Set(words).size, kind).toBe(words.length);
  }
});

test('what will be kept is shown in the measures and words of the reader', () => {
  const us = { measures: 'us', currency: 'USD' } as const;
  const row = {
    odometerKm: 33_149.267712,
    engineHoursH: 943.6,
    costCents: 8240,
    oilGrade: '5W-30',
    work: 'PM',
  };
  const show = (field: string, reader: Parameters<typeof keptValue>[3] = us) =>
    keptValue('service', field, row, reader);
  // by hand with 1 mi = 1.609344 km: 33 149.267712 km = 20 598 mi
  expect(show('odometerKm')).toBe(`${(20_598).toLocaleString()} mi`);
  expect(show('odometerKm', { ...us, measures: 'metric' })).toBe(`${(33_149).toLocaleString()} km`);
  expect(show('costCents')).toMatch(/82[.,]40/);
  expect([show('engineHoursH'), show('oilGrade'), show('work'), show('note')]).toEqual([
    `${(944).toLocaleString()} h`,
    '5W-30',
    'PM',
    '',
  ]);
  const finding = { finding: 'hot_idle_pressure_kpa', value: '151.684660446' };
  // 22 psi = 151.68 kPa (NIST SP 811: 1 psi = 6.894 757 kPa)
  expect([
    keptValue('findings', 'finding', finding, us),
    keptValue('findings', 'value', finding, us),
  ]).toEqual(['hot idle pressure', '22 psi']);
});
