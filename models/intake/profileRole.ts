import type { Column } from '../schema/columns.ts';
import type { ProfileType } from '../schema/intake.ts';
import { readDate, type DateOrder } from './dateText.ts';
import { headerWords } from './headerWords.ts';
import { readNumber, type DecimalMark } from './numberText.ts';

/** How the cells of a column are read. */
export interface CellReading {
  readonly decimalMark: DecimalMark;
  readonly dateOrder: DateOrder | null;
  /** day of reading, for years of two digits */
  readonly asOf: string;
}

const freeText = new Set(['work', 'note', 'reason', 'description', 'value']);
/** Words of a header whose numbers name something: adding them up says nothing. */
const naming = new Set(
  'id no nr num number ref reference key vin plate order ticket year serial account zip postcode phone nummer numero numer code codigo codice'.split(
    ' ',
  ),
);

/** A cell as a number, or null. */
export function cellNumber(cell: string, { decimalMark }: CellReading): number | null {
  const read = readNumber(cell, decimalMark);
  return typeof read === 'string' ? null : read.value;
}

/** A cell as a day, or null. */
export function cellDay(cell: string, { dateOrder, asOf }: CellReading): string | null {
  const read = readDate(cell, dateOrder, asOf);
  return /^\d{4}-/.test(read) ? read : null;
}

/**
 * What the cells of a column are, for its profile: numbers to add up, names (numbers that name a thing among them), days,
 * or free text.
 * @param column the field that it was taken for; null where it was taken for none, then header and cells tell
 * @param cells those that are filled
 * @example a column "Ticket No" of 10231, 10244 → 'name'
 */
export function profileRole(
  header: string,
  column: Column | null,
  cells: readonly string[],
  reading: CellReading,
): ProfileType {
  if (cells.length === 0) return 'empty';
  if (column !== null) {
    if (column.type === 'number' || column.type === 'money') return 'number';
    if (column.type === 'date') return 'date';
    return freeText.has(column.field) || column.type !== 'text' ? 'text' : 'name';
  }
  const counted = cells.every((cell) => /^[-+<>]?\s?(?!0\d)[\d.]/.test(cell));
  if (counted && cells.every((cell) => cellNumber(cell, reading) !== null)) {
    const years = cells.every((cell) => /^(?:19|20)\d\d$/.test(cell));
    return years || headerWords(header).some((word) => naming.has(word)) ? 'name' : 'number';
  }
  if (cells.every((cell) => cellDay(cell, reading) !== null)) return 'date';
  const short = cells.every((cell) => cell.length <= 24);
  return short && cells.filter((cell) => /\s/.test(cell)).length < cells.length / 2 ? 'name' : 'text';
}
