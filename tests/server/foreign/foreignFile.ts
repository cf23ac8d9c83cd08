import type { RecordKind } from '../../../models/schema/kinds.ts';
import type { TakeInOptions } from '../../../server/services/takeIn.ts';

/** A sheet as rows of cells; `merged` joins cells as a spreadsheet program's titles do. */
export interface ForeignSheet {
  readonly name: string;
  readonly rows: readonly (readonly (string | number | null)[])[];
  readonly merged?: readonly string[];
}

/** A file as somebody else's program wrote it, with what must become of it. All content is invented. */
export interface ForeignFile {
  readonly name: string;
  readonly text?: string;
  readonly sheets?: readonly ForeignSheet[];
  readonly encoding?: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
  readonly mark?: boolean;
  readonly lineEnd?: '\n' | '\r' | '\r\n';
  readonly options?: Partial<TakeInOptions>;
  readonly kind: RecordKind;
  readonly accepted?: number;
  readonly duplicates?: number;
  readonly held?: number;
  /** repeated headers and lines of totals: told, not taken for records */
  readonly rejected?: number;
  /** codes of the questions that refuse it; nothing is taken in then */
  readonly asks?: readonly string[];
  /** row (by age of record id), column of the store, value */
  readonly holds?: readonly (readonly [row: number, column: string, value: string | number | null])[];
}
