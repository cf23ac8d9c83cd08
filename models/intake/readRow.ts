import type { Column } from '../schema/columns.ts';
import { kindTable } from '../schema/kinds.ts';
import { cellReader, choiceLookup, type CellReader, type CellValue } from './cellReaders.ts';
import { readFindingValue } from './findingValue.ts';
import { reason, type Reason } from './reasons.ts';
import type { Recognised, RecognisedColumn } from './recognised.ts';
import { rowChecks } from './rowChecks.ts';
import type { Vocabulary } from './synonyms.ts';

/** A record of the table's kind, field by field, as its schema has it. */
export type RowRecord = Record<string, CellValue>;

export type RowRead =
  | {
      readonly ok: true;
      readonly record: RowRecord;
      /** cells of columns that fill no field, by header; null when there are none */
      readonly extra: Readonly<Record<string, string>> | null;
      /** taken all the same, but worth a look */
      readonly remarks: readonly Reason[];
    }
  | { readonly ok: false; readonly reasons: readonly Reason[] };

export interface RowReadOptions {
  /** ISO day of reading: later dates are refused, two-digit years are placed by it */
  readonly asOf: string;
}

interface Step {
  readonly at: number;
  readonly field: string;
  readonly read: CellReader;
}

const noRemarks: readonly Reason[] = [];

/**
 * Makes the reader of a table's rows, compiled once from what was recognised.
 * @returns a function from the cells of a row (trimmed, in the file's order) to a record or the reasons it is held for.
 *   Throws when the kind is still open.
 */
export function compileRowReader(
  recognised: Recognised,
  vocabulary: Vocabulary,
  options: RowReadOptions,
): (cells: readonly string[]) => RowRead {
  const { kind } = recognised;
  if (kind === null) throw new Error('compileRowReader: the kind must be settled, got null');
  const columns = [...(vocabulary.columns.get(kind)?.values() ?? [])];
  const context = { asOf: options.asOf, choices: vocabulary.source.choices };
  const blank: RowRecord = {};
  for (const { field } of columns) blank[field] = null;
  const steps: Step[] = [];
  const kept: { at: number; header: string }[] = [];
  recognised.columns.forEach((read, at) => {
    const column = columns.find(({ field }) => field === read.field);
    if (column !== undefined)
      steps.push({ at, field: column.field, read: cellReader(column, read, context) });
    else if (read.header !== '') kept.push({ at, header: read.header });
  });
  setConstants(recognised, columns, blank, context);
  // Made anew in one go, the engine keeps it as a plain record that is quick to copy and to fill.
  const empty = JSON.parse(JSON.stringify(blank)) as RowRecord;
  const required = columns.filter((column) => column.required);
  const checks = rowChecks[kind] ?? [];
  const valueColumn = recognised.columns.find(({ field }) => field === 'value');
  const coverWord = choiceLookup(
    ['clean', 'light', 'moderate', 'heavy', 'severe'],
    context.choices['coverView'] ?? {},
  );

  return (cells) => {
    const record: RowRecord = { ...empty };
    const faults: Reason[] = [];
    const remarks: Reason[] = [];
    for (const { at, field, read } of steps) {
      const cell = cells[at];
      if (cell !== undefined && cell !== '') record[field] = read(cell, faults, remarks);
    }
    for (const { field, name } of required)
      if (record[field] === null && !faults.some((fault) => fault.field === field))
        faults.push(reason('missing_required', field, `${name} is empty`));
    for (const check of checks) check(record, faults);
    if (kind === 'findings' && typeof record['value'] === 'string' && typeof record['finding'] === 'string') {
      const value = readFindingValue(
        record['finding'],
        record['value'],
        valueColumn?.decimalMark ?? '.',
        coverWord,
      );
      if (typeof value === 'string') record['value'] = value;
      else faults.push(value);
    }
    if (faults.length > 0) return { ok: false, reasons: faults };
    return {
      ok: true,
      record,
      extra: extraOf(cells, kept),
      remarks: remarks.length > 0 ? remarks : noRemarks,
    };
  };
}

function extraOf(
  cells: readonly string[],
  kept: readonly { at: number; header: string }[],
): Record<string, string> | null {
  let extra: Record<string, string> | null = null;
  for (const { at, header } of kept) {
    const cell = cells[at];
    if (cell === undefined || cell === '') continue;
    extra ??= {};
    extra[header] = cell;
  }
  return extra;
}

/** Fills in values that a column map gives for every row. Throws on one that is no value of its field. */
function setConstants(
  recognised: Recognised,
  columns: readonly Column[],
  empty: RowRecord,
  context: Parameters<typeof cellReader>[2],
): void {
  const plain: Omit<RecognisedColumn, 'header' | 'field'> = {
    unit: null,
    unitFrom: null,
    decimalMark: '.',
    dateOrder: null,
    confidence: 1,
    why: 'given for every row',
    examples: [],
  };
  for (const [field, text] of Object.entries(recognised.constants)) {
    const column = columns.find((each) => each.field === field);
    if (column === undefined)
      throw new Error(`constants: a field of ${recognised.kind} is needed, got ${field}`);
    const faults: Reason[] = [];
    empty[field] = cellReader(column, { ...plain, header: field, field }, context)(text, faults, []);
    const [fault] = faults;
    if (fault !== undefined) throw new Error(`constants: ${fault.message}`);
  }
}

/** The day that a record belongs to, or null for records without one. */
export function dayOf(kind: keyof typeof kindTable, record: RowRecord): string | null {
  const field = kindTable[kind].dateField;
  const value = field === null ? null : record[field];
  return typeof value === 'string' ? value : null;
}
