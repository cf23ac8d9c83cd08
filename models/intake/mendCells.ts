import { columnsOf } from '../schema/columns.ts';
import { datedCell } from './dateMends.ts';
import { readNumber } from './numberText.ts';
import type { Recognised } from './recognised.ts';
import { unitFor } from './unitWords.ts';

/** A value proposed for one field of a row: metric, an ISO day, or null for leaving it empty. */
export interface FieldMend {
  readonly field: string;
  readonly value: number | string | null;
}

const plain = (value: number) => String(Number(value.toPrecision(9)));

/**
 * The row's cells with the proposed value written in, in the unit and form of its column.
 * @returns null when no column of the file holds the field
 */
export function mendedCells(
  cells: readonly string[],
  recognised: Recognised,
  mend: FieldMend,
  asOf: string,
): string[] | null {
  const at = recognised.columns.findIndex(({ field }) => field === mend.field);
  const column = recognised.columns[at];
  if (column === undefined) return null;
  const cell = cells[at] ?? '';
  const write = (): string => {
    if (mend.value === null) return '';
    if (typeof mend.value === 'string') return datedCell(cell, column, mend.value, asOf);
    const fields = recognised.kind === null ? [] : columnsOf(recognised.kind);
    const target = fields.find(({ field }) => field === mend.field)?.unit ?? null;
    const read = readNumber(cell, column.decimalMark);
    const marked = (value: number) =>
      column.decimalMark === ',' ? plain(value).replace('.', ',') : plain(value);
    // A cell that names its unit is written anew in the stored one.
    if (typeof read !== 'string' && read.unit !== '') return `${marked(mend.value)} ${target ?? ''}`.trim();
    const unit = column.unit === null || target === null ? null : unitFor(column.unit, target);
    return marked(unit === null ? mend.value : (mend.value - unit.offset) / unit.factor);
  };
  const written = write();
  return recognised.columns.map((_, index) => (index === at ? written : (cells[index] ?? '')));
}
