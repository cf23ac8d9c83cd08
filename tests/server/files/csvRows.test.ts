import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvRows, type RawRow, type Separator } from '../../../server/files/csvRows.ts';
import { quotedCells } from '../../../server/files/quotedCells.ts';
import { defaultTableLimits } from '../../../server/files/tableLimits.ts';

async function* pieces(bytes: Buffer, size: number): AsyncGenerator<Buffer> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

async function rowsOf(text: string, separator: Separator, size: number): Promise<RawRow[]> {
  const rows: RawRow[] = [];
  for await (const batch of csvRows(pieces(Buffer.from(text), size), separator, defaultTableLimits))
    rows.push(...batch);
  return rows;
}

/** The same by csv-parse alone, the parser that follows every quote. */
const byParser = (text: string, separator: string): string[][] =>
  parse(text, {
    delimiter: separator,
    record_delimiter: ['\r\n', '\n', '\r'],
    relax_quotes: true,
    relax_column_count: true,
    ltrim: separator !== '\t',
  });

describe('rows of text', () => {
  test('quotes by hand', () => {
    expect(quotedCells('a,"b,c",d', ',')).toEqual(['a', 'b,c', 'd']);
    expect(quotedCells('"say ""when""",', ',')).toEqual(['say "when"', '']);
    expect(quotedCells('5" hose,1', ',')).toBeNull();
    expect(quotedCells('"open,1', ',')).toBeNull();
    expect(quotedCells('"a"b,1', ',')).toBeNull();
  });

  test('lines are counted through quoted line breaks and after them', async () => {
    const rows = await rowsOf('a,b\n1,"two\nlines"\n3,4\r\n\r\n5,6', ',', 3);
    expect(rows).toEqual([
      { line: 1, cells: ['a', 'b'] },
      { line: 2, cells: ['1', 'two\nlines'] },
      { line: 4, cells: ['3', '4'] },
      { line: 5, cells: [''] },
      { line: 6, cells: ['5', '6'] },
    ]);
  });

  test('the same rows as the parser gives, whatever the text and wherever it is cut', async () => {
    const bit = fc.constantFrom(
      'a',
      '7',
      'é',
      '"',
      '""',
      ',',
      ';',
      '\n',
      '\r\n',
      '\r',
      ' ',
      'x"y',
      '"q,r"',
      '😀',
    );
    await fc.assert(
      fc.asyncProperty(
        fc.array(bit, { maxLength: 30 }).map((bits) => bits.join('')),
        fc.integer({ min: 1, max: 9 }),
        fc.constantFrom<Separator>(',', ';'),
        async (text, size, separator) => {
          let expected: string[][];
          try {
            expected = byParser(text, separator);
          } catch {
            await expect(rowsOf(text, separator, size)).rejects.toHaveProperty('refused');
            return;
          }
          // blank rows carry nothing; the parser leaves out a last one of mere blanks
          const filled = (rows: readonly (readonly string[])[]) =>
            rows.map((cells) => cells.map((cell) => cell.trim())).filter((cells) => cells.join('') !== '');
          const rows = await rowsOf(text, separator, size);
          expect(filled(rows.map(({ cells }) => cells))).toEqual(filled(expected));
        },
      ),
      { numRuns: process.env.SOAK === '1' ? 100_000 : 400, seed: 5 },
    );
  });
});
