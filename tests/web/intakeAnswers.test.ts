import { expect, test } from 'vitest';
import { columnsOf } from '../../models/schema/columns.ts';
import type { IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
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
