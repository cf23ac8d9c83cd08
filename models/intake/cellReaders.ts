import type { Column } from '../schema/columns.ts';
import { readCode } from './codeText.ts';
import { readDate } from './dateText.ts';
import { readFlag } from './flagText.ts';
import { gradeIn } from './gradeText.ts';
import { fold } from './headerWords.ts';
import { isCurrency, readNumber, saysNothing } from './numberText.ts';
import { reason, type Reason } from './reasons.ts';
import type { RecognisedColumn } from './recognised.ts';
import { unitFor, type UnitWord } from './unitWords.ts';
import { looksLikeVin, vinCheckHolds } from './vin.ts';

export type CellValue = string | number | boolean | null;

/** Takes a filled cell; puts what is wrong with it into `faults`, what is only remarkable into `remarks`. */
export type CellReader = (cell: string, faults: Reason[], remarks: Reason[]) => CellValue;

export interface CellContext {
  readonly asOf: string;
  /** own words to the words they go by, per field */
  readonly choices: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>;
}

const round = (value: number) => Number(value.toPrecision(12));
const named = (column: Column, cell: string) =>
  `${column.name} "${cell.length > 60 ? `${cell.slice(0, 57)}…` : cell}"`;

function numberReader(column: Column, read: RecognisedColumn): CellReader {
  const target = column.unit;
  const usual = read.unit === null || target === null ? null : unitFor(read.unit, target);
  const words = new Map<string, UnitWord | null>();
  const low = column.min ?? -Infinity;
  const high = column.max ?? Infinity;
  const convert = (value: number, unit: UnitWord | null) =>
    unit === null || (unit.factor === 1 && unit.offset === 0)
      ? value
      : round(value * unit.factor + unit.offset);
  const plain = /^\d{1,15}$/;
  return (cell, faults, remarks) => {
    let value: number;
    if (plain.test(cell)) value = convert(Number(cell), usual);
    else {
      if (saysNothing(cell)) return null;
      const hours = target === 'h' ? /^(\d+):([0-5]\d)(?::[0-5]\d)?$/.exec(cell) : null;
      if (hours !== null) return round(Number(hours[1]) + Number(hours[2]) / 60);
      if (column.field === 'phasers' && readFlag(cell) !== null) return readFlag(cell) ? 1 : 0;
      if (
        /^(nd|n\.d\.?|bdl|not detected|neg|negative|negativ|nil|trace)$/i.test(cell) &&
        (target === '%' || target === 'ppm')
      ) {
        remarks.push(reason('below_detection', column.field, named(column, cell)));
        return 0;
      }
      const found = readNumber(cell, read.decimalMark);
      if (typeof found === 'string') {
        faults.push(reason(found, column.field, `${named(column, cell)} is no number`));
        return null;
      }
      let unit = usual;
      if (found.unit !== '' && target !== null) {
        const known = words.get(found.unit);
        unit = known === undefined ? unitFor(found.unit, target) : known;
        if (known === undefined) words.set(found.unit, unit);
        if (unit === null) {
          faults.push(
            reason('unknown_unit', column.field, `${named(column, cell)} carries a unit that does not fit`),
          );
          return null;
        }
      }
      if (found.bound === '>') {
        faults.push(reason('not_a_number', column.field, `${named(column, cell)} is only a lower bound`));
        return null;
      }
      if (found.bound === '<') remarks.push(reason('below_detection', column.field, named(column, cell)));
      value = convert(found.value, unit);
    }
    if (value < low || value > high) {
      const range = `${column.min ?? 'any'} to ${column.max ?? 'any'}${target === null ? '' : ` ${target}`}`;
      const code =
        target === 'share' && value > 1 && value <= 100
          ? 'share_or_percent'
          : value < 0 && low >= 0
            ? 'negative'
            : 'out_of_range';
      faults.push(reason(code, column.field, `${named(column, cell)} lies outside ${range}`));
      return null;
    }
    return value;
  };
}

function moneyReader(column: Column, read: RecognisedColumn): CellReader {
  return (cell, faults) => {
    if (saysNothing(cell)) return null;
    const found = readNumber(cell, read.decimalMark);
    if (typeof found === 'string' || found.bound !== '' || (found.unit !== '' && !isCurrency(found.unit))) {
      faults.push(
        reason(
          typeof found === 'string' ? found : 'not_a_number',
          column.field,
          `${named(column, cell)} is no amount`,
        ),
      );
      return null;
    }
    if (found.value < 0) {
      faults.push(reason('negative', column.field, `${named(column, cell)} is below zero`));
      return null;
    }
    // The nudge undoes binary fractions: 1.005 is meant as 1.01.
    return Math.round(found.value * 100 * (1 + 1e-12));
  };
}

const mayLieAhead = new Set([
  'plannedDisposalOn',
  'warrantyUntilOn',
  'awayFrom',
  'awayTo',
  'disposedOn',
  'from',
  'to',
]);
const earliest = '1950-01-01';

function dateReader(column: Column, read: RecognisedColumn, asOf: string): CellReader {
  let lastCell = '';
  let lastDate = '';
  return (cell, faults) => {
    if (cell === lastCell) return lastDate;
    if (saysNothing(cell)) return null;
    const date = readDate(cell, read.dateOrder, asOf);
    if (date.startsWith('date_')) {
      const code = date as 'date_unreadable' | 'date_impossible' | 'date_ambiguous';
      faults.push(reason(code, column.field, named(column, cell)));
      return null;
    }
    if (date > asOf && !mayLieAhead.has(column.field)) {
      faults.push(reason('date_future', column.field, `${named(column, cell)} lies after ${asOf}`));
      return null;
    }
    if (date < earliest) {
      faults.push(reason('date_too_old', column.field, `${named(column, cell)} lies before ${earliest}`));
      return null;
    }
    lastCell = cell;
    lastDate = date;
    return date;
  };
}

/** Look-up from the words people write to the word of a fixed set; null for an unknown word. */
export function choiceLookup(
  values: readonly string[],
  synonyms: Readonly<Record<string, readonly string[]>>,
): (cell: string) => string | null {
  const key = (text: string) =>
    fold(text)
      .replace(/[^a-z0-9]+/g, ' ')
      .trim();
  const words = new Map<string, string>();
  for (const value of values) {
    for (const synonym of synonyms[value] ?? []) words.set(key(synonym), value);
  }
  for (const value of values) words.set(key(value), value);
  return (cell) => words.get(key(cell)) ?? null;
}

function choiceReader(column: Column, context: CellContext): CellReader {
  const values = column.values ?? [];
  const lookup = choiceLookup(values, context.choices[column.field] ?? {});
  return (cell, faults) => {
    if (saysNothing(cell) && lookup(cell) === null) return null;
    const value = lookup(cell);
    if (value === null)
      faults.push(
        reason('unknown_word', column.field, `${named(column, cell)} is none of ${values.join(', ')}`),
      );
    return value;
  };
}

function textReader(column: Column, read: RecognisedColumn, context: CellContext): CellReader {
  const { field } = column;
  if (field === 'code')
    return (cell, faults) => {
      const code = readCode(cell);
      if (code === null) faults.push(reason('not_a_code', field, named(column, cell)));
      return code;
    };
  if (field === 'vin')
    return (cell, _, remarks) => {
      if (saysNothing(cell)) return null;
      const vin = cell.toUpperCase().replace(/[\s-]/g, '');
      if (vin.length === 17 && !vinCheckHolds(vin)) {
        const found = looksLikeVin(vin)
          ? 'has a check character that does not fit, as outside North America'
          : 'has characters that none may have';
        remarks.push(reason('vin_check_digit', field, `${named(column, cell)} ${found}`));
      }
      return vin;
    };
  // A unit number that passed through a table of numbers comes back with a decimal part.
  if (field === 'unitNumber')
    return (cell) => (/^\d+\.0+$/.test(cell) ? cell.slice(0, cell.indexOf('.')) : cell);
  if (field === 'oilGrade' || field === 'requiredGrade')
    return (cell) => (saysNothing(cell) ? null : (gradeIn(cell) ?? cell));
  if (field === 'from' || field === 'to')
    return (cell, faults) => {
      if (!/\d/.test(cell)) return saysNothing(cell) ? null : cell.toLowerCase();
      return dateReader(column, read, context.asOf)(cell, faults, []);
    };
  return (cell) =>
    cell === '-' || cell === '--' || cell === 'NULL' || cell === 'null' || cell === 'NaN' ? null : cell;
}

/** Makes the reader of one column; called once per table. */
export function cellReader(column: Column, read: RecognisedColumn, context: CellContext): CellReader {
  switch (column.type) {
    case 'number':
      return numberReader(column, read);
    case 'money':
      return moneyReader(column, read);
    case 'date':
      return dateReader(column, read, context.asOf);
    case 'choice':
      return choiceReader(column, context);
    case 'flag':
      return (cell, faults) => {
        const value = readFlag(cell);
        if (value === null && !saysNothing(cell))
          faults.push(reason('not_a_flag', column.field, named(column, cell)));
        return value;
      };
    case 'text':
      return textReader(column, read, context);
  }
}
