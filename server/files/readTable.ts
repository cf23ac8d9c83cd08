import { allBytes, byteSource, firstBytes, type ByteSource } from './byteSource.ts';
import { csvRows, type RawRow, type Separator } from './csvRows.ts';
import { asUtf8, detectEncoding, type Encoding } from './encoding.ts';
import { detectSeparator } from './separator.ts';
import { sheetRows } from './sheetRows.ts';
import { findLayout, headerSearchRows, type TableLayout } from './tableLayout.ts';
import { defaultTableLimits, sizeInWords, type TableLimits } from './tableLimits.ts';
import { isRefused, TableRefusedError, type Refused } from './tableRefusal.ts';
import { rowJudge, type TableRow } from './tableRow.ts';
import { explanationMark } from './explanationMark.ts';
import { checkWorkbookZip } from './zipGuard.ts';

export interface TableOptions {
  readonly limits?: Partial<TableLimits>;
  /** tells whether a name is a known column; helps to find the header below titles */
  readonly knowsHeader?: (name: string) => boolean;
  readonly encoding?: Encoding;
  readonly separator?: Separator;
}

/** One table: a text file, or one sheet of a workbook. */
export interface SheetTable {
  readonly sheet: string | null;
  readonly headerLine: number;
  readonly columns: readonly string[];
  /**
   * Every physical row below the header but blank ones, in batches; can be called again to read anew. Throws
   * TableRefusedError when the text turns out broken on the way (an unclosed quote, too many rows).
   */
  rows(): AsyncIterable<readonly TableRow[]>;
  /** how much of the table the last reading has passed, 0..1: bytes of a text, rows of a sheet */
  share(): number;
}

export interface OpenedTable {
  readonly format: 'text' | 'workbook';
  readonly encoding: Encoding | null;
  readonly separator: Separator | null;
  readonly sheets: readonly SheetTable[];
  /** sheets that hold no table, with why */
  readonly notRead: readonly ({ readonly sheet: string } & Refused)[];
}

const noRows: Refused = {
  refused: 'no_rows',
  message: 'There is a header but no row below it: nothing to take in. Send the file with its rows.',
};

interface Source {
  readonly sheet: string | null;
  readonly separator: Separator | null;
  readonly endsInLineBreak: boolean;
  rawRows(): AsyncIterable<readonly RawRow[]>;
  share(): number;
}

async function* judgedRows(
  source: Source,
  layout: TableLayout,
  limits: TableLimits,
): AsyncGenerator<TableRow[]> {
  const judge = rowJudge(layout.columns, source.separator);
  let skip = layout.rowsBefore;
  let count = 0;
  let last: RawRow | null = null;
  for await (const raw of source.rawRows()) {
    const batch: TableRow[] = [];
    for (const row of raw) {
      if (skip > 0) {
        skip -= 1;
        continue;
      }
      // One row is kept back: only the last of the file can be cut off.
      const judged = last === null ? null : judge(last, false);
      last = row;
      if (judged !== null) batch.push(judged);
    }
    count += batch.length;
    if (count > limits.maxRows)
      throw new TableRefusedError(
        'too_many_rows',
        `The file has more than ${limits.maxRows} rows: split it and send the parts.`,
      );
    if (batch.length > 0) yield batch;
  }
  const judged = last === null ? null : judge(last, !source.endsInLineBreak);
  if (judged !== null) yield [judged];
}

async function tableOf(
  source: Source,
  options: TableOptions,
  limits: TableLimits,
): Promise<SheetTable | Refused> {
  const head: RawRow[] = [];
  try {
    for await (const batch of source.rawRows()) {
      head.push(
        ...batch
          .slice(0, headerSearchRows - head.length)
          .map(({ line, cells }) => ({ line, cells: [...cells] })),
      );
      if (head.length >= headerSearchRows) break;
    }
  } catch (fault) {
    if (fault instanceof TableRefusedError) return { refused: fault.refused, message: fault.message };
    throw fault;
  }
  const layout = findLayout(head, options.knowsHeader ?? (() => false));
  if (isRefused(layout)) return layout;
  if (layout.columns.length > limits.maxColumns)
    return {
      refused: 'too_many_columns',
      message: `The table has ${layout.columns.length} columns, more than ${limits.maxColumns}: keep the columns that matter and send it again.`,
    };
  const rows = () => judgedRows(source, layout, limits);
  try {
    const reading = rows();
    const first = await reading.next();
    await reading.return(undefined);
    if (first.done === true) return noRows;
  } catch (fault) {
    if (fault instanceof TableRefusedError) return { refused: fault.refused, message: fault.message };
    throw fault;
  }
  return {
    sheet: source.sheet,
    headerLine: layout.headerLine,
    columns: layout.columns,
    rows,
    share: source.share,
  };
}

async function openText(
  bytes: ByteSource,
  options: TableOptions,
  limits: TableLimits,
): Promise<OpenedTable | Refused> {
  if (bytes.size > limits.maxTextBytes)
    return {
      refused: 'too_large',
      message: `The file has ${sizeInWords(bytes.size)}, more than ${sizeInWords(limits.maxTextBytes)}: split it and send the parts.`,
    };
  const encoding = options.encoding ?? (await detectEncoding(bytes));
  if (encoding === null)
    return { refused: 'binary', message: 'The file holds no text: send a .csv, .tsv or .xlsx file.' };
  const parts: Buffer[] = [];
  for await (const part of asUtf8(bytes.chunks(), encoding)) {
    parts.push(part);
    if (parts.reduce((sum, each) => sum + each.length, 0) > 64_000) break;
  }
  const beginning = Buffer.concat(parts).toString('utf8');
  if (beginning.trim() === '')
    return { refused: 'empty', message: 'The file is empty: it holds no text at all.' };
  const separator = options.separator ?? detectSeparator(beginning);
  const tail = (await bytes.tail()).toString('latin1');
  let passed = 0;
  async function* counted(): AsyncGenerator<Buffer> {
    passed = 0;
    for await (const chunk of bytes.chunks()) {
      yield chunk;
      passed += chunk.length;
    }
  }
  const source: Source = {
    sheet: null,
    separator,
    endsInLineBreak: /[\r\n]/.test(tail),
    rawRows: () => csvRows(asUtf8(counted(), encoding), separator, limits),
    share: () => passed / bytes.size,
  };
  const table = await tableOf(source, options, limits);
  return isRefused(table) ? table : { format: 'text', encoding, separator, sheets: [table], notRead: [] };
}

async function openWorkbook(
  bytes: ByteSource,
  options: TableOptions,
  limits: TableLimits,
): Promise<OpenedTable | Refused> {
  if (bytes.size > limits.maxWorkbookBytes)
    return {
      refused: 'too_large',
      message: `The workbook has ${sizeInWords(bytes.size)}, more than ${sizeInWords(limits.maxWorkbookBytes)}: save its sheets as .csv files and send those.`,
    };
  const packed = await allBytes(bytes);
  const unsafe = checkWorkbookZip(packed, limits);
  if (unsafe !== null) return unsafe;
  const sheets: SheetTable[] = [];
  const notRead: ({ sheet: string } & Refused)[] = [];
  for (const { sheet, hidden, rows } of sheetRows(packed, limits)) {
    if (rows[0]?.cells[0] === explanationMark) continue;
    let passed = 0;
    const source: Source = {
      sheet,
      separator: null,
      endsInLineBreak: true,
      rawRows: async function* () {
        for (let at = 0; at < rows.length; at += 2000) {
          yield rows.slice(at, at + 2000).map(({ line, cells }) => ({ line, cells: [...cells] }));
          passed = Math.min(rows.length, at + 2000);
        }
      },
      share: () => passed / Math.max(1, rows.length),
    };
    const table: SheetTable | Refused = hidden
      ? {
          refused: 'no_rows',
          message: `Sheet ${sheet} is hidden and was left out: show it and send the workbook again if it holds records.`,
        }
      : await tableOf(source, options, limits);
    if (isRefused(table)) notRead.push({ sheet, ...table });
    else sheets.push(table);
  }
  const [only] = notRead;
  if (sheets.length === 0 && only !== undefined) return { refused: only.refused, message: only.message };
  if (sheets.length === 0)
    return { refused: 'empty', message: 'The workbook is empty: no sheet holds any text.' };
  return { format: 'workbook', encoding: null, separator: null, sheets, notRead };
}

/**
 * Opens a CSV, TSV or XLSX file, on disk or in memory, telling format, encoding, separator and header by content.
 * @returns the tables, or why the file is not read; faults met later are thrown by `rows()` as TableRefusedError
 */
export async function openTable(
  pathOrBuffer: string | Uint8Array,
  options: TableOptions = {},
): Promise<OpenedTable | Refused> {
  const limits = { ...defaultTableLimits, ...options.limits };
  const bytes = await byteSource(pathOrBuffer);
  if (bytes === null) return { refused: 'not_found', message: `There is no file ${String(pathOrBuffer)}.` };
  if (bytes.size === 0) return { refused: 'empty', message: 'The file is empty: it holds no text at all.' };
  const head = await firstBytes(bytes, 8);
  if (head.subarray(0, 4).equals(Buffer.from([0xd0, 0xcf, 0x11, 0xe0])))
    return {
      refused: 'old_workbook',
      message:
        'The workbook is in an old format or locked with a password: save it as .xlsx without a password and send that.',
    };
  try {
    return head[0] === 0x50 && head[1] === 0x4b && (head[2] ?? 0) <= 5 && (head[3] ?? 0) <= 6
      ? await openWorkbook(bytes, options, limits)
      : await openText(bytes, options, limits);
  } catch (fault) {
    if (fault instanceof TableRefusedError) return { refused: fault.refused, message: fault.message };
    throw fault;
  }
}
