import type { RecordKind } from '../schema/kinds.ts';
import type { DateOrder } from './dateText.ts';
import type { DecimalMark } from './numberText.ts';

export type Measures = 'metric' | 'us';

/** What a column of a file was taken for. */
export interface RecognisedColumn {
  readonly header: string;
  /** the field it fills, or null for a column that is kept as it is */
  readonly field: string | null;
  /** unit of measure of its numbers where cells name none (`mi`, `qt`, `°F`, `km`); null when there is none to name */
  readonly unit: string | null;
  /** how that unit is known: said by the name, taken from the file's measures, or the only one there is */
  readonly unitFrom: 'name' | 'answer' | 'measures' | 'cells' | 'only' | null;
  readonly decimalMark: DecimalMark;
  /** order of the parts of its dates; null when it holds none or the order is open */
  readonly dateOrder: DateOrder | null;
  /** 0..1 */
  readonly confidence: number;
  /** in words, for the person who checks it */
  readonly why: string;
  /** a few cells, to show */
  readonly examples: readonly string[];
}

export const questionCodes = [
  'kind_unclear',
  'column_missing',
  'two_columns_one_field',
  'date_order',
  'date_order_mixed',
  'decimal_mark',
  'distance_unit',
  'volume_unit',
  'temperature_unit',
  'currency_mixed',
] as const;
export type QuestionCode = (typeof questionCodes)[number];

/** Something the file leaves open and a person must say; the intake is refused until it is answered. */
export interface Question {
  readonly code: QuestionCode;
  /** the header it is about, or null for the file */
  readonly column: string | null;
  /** the field it is about, or null */
  readonly field: string | null;
  readonly question: string;
  /** answers to choose from; put the chosen one into the options that `answers` names */
  readonly choices: readonly string[];
  /** the option, or entry of a column map, that takes the answer */
  readonly answers: 'kind' | 'columns' | 'dateOrder' | 'decimal' | 'measures' | 'unit' | 'constants';
}

/** How a whole table is to be read. */
export interface Recognised {
  /** null when the kind is open */
  readonly kind: RecordKind | null;
  /** one entry per column of the file, in its order */
  readonly columns: readonly RecognisedColumn[];
  /** values of fields that are the same in every row, from a column map */
  readonly constants: Readonly<Record<string, string>>;
  readonly dateOrder: DateOrder | null;
  readonly decimalMark: DecimalMark;
  readonly measures: Measures | null;
  readonly questions: readonly Question[];
  /** headers of columns that fill no field */
  readonly unknownColumns: readonly string[];
}

/** What the caller knows already. */
export interface RecogniseOptions {
  readonly kind?: RecordKind | undefined;
  readonly measures?: Measures | undefined;
  readonly dateOrder?: DateOrder | undefined;
  readonly decimal?: DecimalMark | undefined;
  /** per header: the field it fills (null: none), its unit, its decimal mark, the order of its dates */
  readonly columns?: Readonly<Record<string, ColumnAnswer>> | undefined;
  readonly constants?: Readonly<Record<string, string>> | undefined;
}

/** One column of a saved map, or the answer to a question about it. */
export interface ColumnAnswer {
  readonly field: string | null;
  readonly unit?: string | null | undefined;
  readonly decimal?: DecimalMark | undefined;
  readonly dateOrder?: DateOrder | undefined;
}
