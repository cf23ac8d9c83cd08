import { expect, test } from 'vitest';
import { cellDay, cellNumber, profileRole } from '../../../models/intake/profileRole.ts';
import { columnsOf } from '../../../models/schema/columns.ts';

const reading = { decimalMark: '.', dateOrder: null, asOf: '2026-06-01' } as const;

test('a column that was taken for a field goes by that field', () => {
  const role = (field: string, cells: string[]) =>
    profileRole(
      'x',
      columnsOf('service').find((column) => column.field === field)!,
      cells,
      reading,
    );
  expect(role('unitNumber', ['101', '102'])).toBe('name');
  expect(role('workOrder', ['90017'])).toBe('name');
  expect(role('work', ['17'])).toBe('text');
  expect(role('odometerKm', ['12000', 'n/a'])).toBe('number');
  expect(role('costCents', ['12.50'])).toBe('number');
  expect(role('servicedOn', ['31.01.2024'])).toBe('date');
  expect(role('unitNumber', [])).toBe('empty');
});

test('a column that nobody knows goes by its words and cells', () => {
  const role = (header: string, ...cells: string[]) => profileRole(header, null, cells, reading);
  expect(role('Ticket No', '17', '18')).toBe('name');
  expect(role('Model Year', '2019', '2021')).toBe('name');
  expect(role('Baujahr', '2019', '2021')).toBe('name');
  expect(role('Postal', '01234', '04109')).toBe('name');
  expect(role('Torque', '4.5', '5.5')).toBe('number');
  expect(role('Lane', 'A-1', 'B 2', 'C-3')).toBe('name');
  expect(role('Seen', '2024-01-05', '2024-02-05')).toBe('date');
  expect(role('Remark', 'left in the yard', 'key is with the foreman')).toBe('text');
});

test('cells are read as the column writes them', () => {
  expect(cellNumber('12.500', { ...reading, decimalMark: ',' })).toBe(12_500);
  expect(cellNumber('unclear', reading)).toBeNull();
  expect(cellDay('03.02.24', { ...reading, dateOrder: 'dmy' })).toBe('2024-02-03');
  expect(cellDay('03/02/2024', reading)).toBeNull();
});
