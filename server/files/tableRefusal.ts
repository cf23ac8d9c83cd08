/** Why a file cannot be read as a table; codes are stable. */
export const tableRefusals = [
  'not_found',
  'empty',
  'no_rows',
  'no_header',
  'binary',
  'old_workbook',
  'broken_workbook',
  'not_a_workbook',
  'too_large',
  'too_many_columns',
  'too_many_rows',
  'row_too_long',
  'quote_not_closed',
  'broken_text',
] as const;
export type TableRefusalCode = (typeof tableRefusals)[number];

/** A file or sheet that is not read, with one sentence that says what to do. */
export interface Refused {
  readonly refused: TableRefusalCode;
  readonly message: string;
}

/** A fault that shows only while rows are being read; whoever reads turns it into a refusal of the file. */
export class TableRefusedError extends Error {
  readonly refused: TableRefusalCode;
  constructor(refused: TableRefusalCode, message: string) {
    super(message);
    this.name = 'TableRefusedError';
    this.refused = refused;
  }
}

/** True for a result that is a refusal. */
export function isRefused(result: object): result is Refused {
  return 'refused' in result;
}
