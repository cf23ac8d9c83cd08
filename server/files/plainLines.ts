import { StringDecoder } from 'node:string_decoder';
import { quotedCells } from './quotedCells.ts';

/** Cells of the lines read so far; `rest` gives back what could not be split line by line, from a row's begin on. */
export interface PlainBatch {
  readonly rows: string[][];
  readonly rest: AsyncIterable<Buffer> | null;
}

/**
 * Splits text line by line as long as no row reaches beyond its line: much quicker than a parser that looks at every
 * byte. Ends with `rest` at the first row that needs one (a line break or a stray quote inside a cell, old line ends).
 * @param maxLength length from which on a line is no plain one
 */
export async function* plainLines(
  text: AsyncIterable<Buffer>,
  separator: string,
  maxLength: number,
): AsyncGenerator<PlainBatch> {
  const decoder = new StringDecoder('utf8');
  const chunks = text[Symbol.asyncIterator]();
  async function* restFrom(pending: string): AsyncGenerator<Buffer> {
    try {
      yield Buffer.from(pending);
      for (let next = await chunks.next(); next.done !== true; next = await chunks.next())
        yield Buffer.from(decoder.write(next.value));
      yield Buffer.from(decoder.end());
    } finally {
      await chunks.return?.();
    }
  }
  let pending = '';
  let handedOver = false;
  try {
    for (;;) {
      const next = await chunks.next();
      const ended = next.done === true;
      const block = pending + (ended ? decoder.end() : decoder.write(next.value));
      const hasReturns = block.includes('\r');
      const hasQuotes = block.includes('"');
      const rows: string[][] = [];
      let at = 0;
      while (at < block.length) {
        const end = block.indexOf('\n', at);
        if (end < 0 && !ended) break;
        let line = block.slice(at, end < 0 ? block.length : end);
        if (hasReturns && line.endsWith('\r')) line = line.slice(0, -1);
        const cells =
          line.length > maxLength || (hasReturns && line.includes('\r'))
            ? null
            : hasQuotes && line.includes('"')
              ? quotedCells(line, separator)
              : line.split(separator);
        if (cells === null) {
          handedOver = true;
          yield { rows, rest: restFrom(block.slice(at)) };
          return;
        }
        rows.push(cells);
        at = end < 0 ? block.length : end + 1;
      }
      pending = block.slice(at);
      if (pending.length > maxLength) {
        handedOver = true;
        yield { rows, rest: restFrom(pending) };
        return;
      }
      if (rows.length > 0) yield { rows, rest: null };
      if (ended) return;
    }
  } finally {
    if (!handedOver) await chunks.return?.();
  }
}
