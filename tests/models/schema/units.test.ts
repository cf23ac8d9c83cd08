import { describe, expect, test } from 'vitest';
import { columnsOf } from '../../../models/schema/columns.ts';
import { recordKinds } from '../../../models/schema/kinds.ts';

/** Suffix of a column name → unit of measure it must carry. */
const suffixes: readonly [RegExp, string][] = [
  [/_km$/, 'km'],
  [/_h$/, 'h'],
  [/_l$/, 'L'],
  [/_c$/, '°C'],
  [/_mm$/, 'mm'],
  [/_mm2_s$/, 'mm²/s'],
  [/_mg_koh_g$/, 'mg KOH/g'],
  [/_percent$/, '%'],
  [/_a_cm$/, 'A/cm'],
  [/_ppm$/, 'ppm'],
  [/_months$/, 'months'],
  [/_days$/, 'd'],
  [/_rpm$/, '1/min'],
  [/_teeth$/, 'count'],
  [/_share$/, 'share'],
  [/_cost(_per_day)?$/, 'cents'],
];

describe('fields of every record kind', () => {
  for (const kind of recordKinds)
    test(`${kind}: the name's suffix and the unit agree`, () => {
      const numbers = columnsOf(kind).filter((column) => column.type === 'number' || column.type === 'money');
      for (const column of numbers) {
        const rule = suffixes.find(([pattern]) => pattern.test(column.name));
        if (rule !== undefined) expect([column.name, column.unit]).toEqual([column.name, rule[1]]);
        expect(column.unit, `${kind}.${column.name} carries a unit`).not.toBeNull();
      }
    });

  test('dates carry the word that dates them', () => {
    for (const kind of recordKinds)
      for (const column of columnsOf(kind))
        if (column.type === 'date') expect(column.name).toMatch(/_on$|^away_(from|to)$/);
  });
});
