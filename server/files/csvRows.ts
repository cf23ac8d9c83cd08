import { Readable } from 'node:stream';
import { parse, CsvError } from 'csv-parse';
import { TableRefusedError } from './tableRefusal.ts';
import { plainLines } from './plainLines.ts';
import type { TableLimits } from './tableLimits.ts';

/** One physical row: the line where it starts (first line = 1) and its cells. */
export interface RawRow {
  readonly line: number;
  readonly cells: string[];
}

export type Separator = ',' | ';' | '\t' | '|';

/** Lines that a row takes up: one, and one more for each line break inside its cells. */
function linesOf(cells: readonly string[]): number {
  let lines = 1;
  for (const cell of cells) if (cell.includes('\n')) lines += cell.split('\n').length - 1;
  return lines;
}

/** How many rows a batch holds at most. */
const batchRows = 2000;

function refusalOf(fault: unknown, limits: TableLimits, linesBefore: number): unknown {
  if (!(fault instanceof CsvError)) return fault;
  const line = linesBefore + (typeof fault.lines === 'number' ? fault.lines : 0);
  if (fault.code === 'CSV_MAX_RECORD_SIZE')
    return new TableRefusedError(
      'row_too_long',
      `The row near line ${line} is longer than ${limits.maxRowBytes} bytes: most often a quote is opened there and never closed. Mend that line and send the file again.`,
    );
  if (fault.code === 'CSV_QUOTE_NOT_CLOSED')
    return new TableRefusedError(
      'quote_not_closed',
      `The file ends inside a quoted cell (line ${line}): it was cut off, or a quote is never closed. Send the whole file again.`,
    );
  return new TableRefusedError('broken_text', `The text cannot be split into cells: ${fault.message}.`);
}

/**
 * Splits UTF-8 text into rows, in batches and in bounded memory. Quotes inside a cell are taken as they are; blank
 * lines come as a row of one empty cell. Throws TableRefusedError where the text cannot be read on.
 */
export async function* csvRows(
  text: AsyncIterable<Buffer>,
  separator: Separator,
  limits: TableLimits,
): AsyncGenerator<RawRow[]> {
  let line = 1;
  for await (const { rows, rest } of plainLines(text, separator, limits.maxRowBytes)) {
    for (let at = 0; at < rows.length; at += batchRows)
      yield rows.slice(at, at + batchRows).map((cells): RawRow => ({ line: line++, cells }));
    if (rest !== null) yield* parsedRows(rest, separator, limits, line);
  }
}

/** The same by a parser that follows quotes across lines, from a given line on. */
async function* parsedRows(
  text: AsyncIterable<Buffer>,
  separator: Separator,
  limits: TableLimits,
  firstLine: number,
): AsyncGenerator<RawRow[]> {
  const options = {
    delimiter: separator,
    record_delimiter: ['\r\n', '\n', '\r'],
    relax_quotes: true,
    relax_column_count: true,
    ltrim: separator !== '\t',
    max_record_size: limits.maxRowBytes,
    readableHighWaterMark: batchRows,
  };
  const parser = parse(options);
  const source = Readable.from(text, { objectMode: false });
  source.on('error', (fault) => parser.destroy(fault));
  source.pipe(parser);
  let line = firstLine;
  let ended = false;
  let fault: unknown = null;
  let wake: () => void = () => {};
  parser.on('readable', () => wake());
  parser.on('end', () => {
    ended = true;
    wake();
  });
  parser.on('error', (error) => {
    fault = error;
    wake();
  });
  try {
    for (;;) {
      const batch: RawRow[] = [];
      while (batch.length < batchRows) {
        const cells = parser.read() as string[] | null;
        if (cells === null) break;
        batch.push({ line, cells });
        line += linesOf(cells);
      }
      if (batch.length > 0) yield batch;
      else if (fault !== null) throw refusalOf(fault, limits, firstLine - 1);
      else if (ended) return;
      else await new Promise<void>((resolve) => (wake = resolve));
    }
  } finally {
    source.destroy();
    parser.destroy();
  }
}
