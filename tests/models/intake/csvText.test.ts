import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'csv-parse/sync';
import { csvCell, csvText } from '../../../models/intake/csvText.ts';

test('text that a spreadsheet would run is written so that it does not; numbers stay numbers', () => {
  expect(csvCell('=1+1')).toBe("'=1+1");
  expect(csvCell('@SUM(A1)')).toBe("'@SUM(A1)");
  expect(csvCell('+49 30')).toBe("'+49 30");
  expect(csvCell('-2,5')).toBe('"-2,5"');
  expect(csvCell('-2.5')).toBe('-2.5');
  expect(csvCell(-2.5)).toBe('-2.5');
  expect(csvCell('\t=1')).toBe("'\t=1");
  expect(csvCell(null)).toBe('');
  expect(csvCell('a "b", c')).toBe('"a ""b"", c"');
});

test('what is written reads back the same, but for the apostrophe', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.string(), { minLength: 2, maxLength: 2 }), { minLength: 1, maxLength: 5 }),
      (rows) => {
        const read = parse(csvText(['a', 'b'], rows), { record_delimiter: '\n' });
        expect(read.slice(1).map((row) => row.map((cell) => cell.replace(/^'/, '')))).toEqual(
          rows.map((row) => row.map((cell) => cell.replace(/^'/, ''))),
        );
        for (const cell of read.flat()) expect(/^[=@]/.test(cell)).toBe(false);
      },
    ),
    { numRuns: 300, seed: 9 },
  );
});
