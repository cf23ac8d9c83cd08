import { recognise } from '../../models/intake/recognise.ts';
import { cellDay, cellNumber, profileRole, type CellReading } from '../../models/intake/profileRole.ts';
import type { RecognisedColumn } from '../../models/intake/recognised.ts';
import type { Vocabulary } from '../../models/intake/synonyms.ts';
import type { Column } from '../../models/schema/columns.ts';
import type { ColumnProfile } from '../../models/schema/intake.ts';
import { danfo } from './danfo.ts';
import { openTable } from './readTable.ts';
import { isRefused, type Refused } from './tableRefusal.ts';

const sampleRows = 2000;
const inOrder = new Intl.Collator('en', { numeric: true });

/**
 * Profile of a sample of a file's first table, made with danfo.js: what each column holds, missing, distinct, extremes,
 * lengths, and the mean of numbers that can be added up.
 * @param stem the file's name without ending
 * @param asOf day of reading
 */
export async function profileTable(
  path: string,
  stem: string,
  vocabulary: Vocabulary,
  asOf: string,
): Promise<{ rows: number; columns: ColumnProfile[] } | Refused> {
  const names = new Set([...vocabulary.own.values()].flatMap((own) => [...own.keys()]));
  const opened = await openTable(path, { knowsHeader: (name) => names.has(name.trim().toLowerCase()) });
  if (isRefused(opened)) return opened;
  const [table] = opened.sheets;
  const rows: string[][] = [];
  for await (const batch of table.rows()) {
    for (const row of batch)
      if (row.skip === null && row.fault === null && rows.length < sampleRows) rows.push(row.cells);
    if (rows.length >= sampleRows) break;
  }
  const { kind, columns: read } = recognise(table.columns, rows, table.sheet ?? stem, vocabulary);
  const fields = kind === null ? undefined : vocabulary.columns.get(kind);
  const series = (await danfo()).Series;
  return {
    rows: rows.length,
    columns: read.map((column, at) =>
      profileOf(
        column,
        (column.field === null ? null : fields?.get(column.field)) ?? null,
        rows.map((cells) => cells[at] ?? ''),
        asOf,
        series,
      ),
    ),
  };
}

type Series = Awaited<ReturnType<typeof danfo>>['Series'];

function profileOf(
  read: RecognisedColumn,
  column: Column | null,
  all: readonly string[],
  asOf: string,
  Series: Series,
): ColumnProfile {
  const cells = all.filter((cell) => cell !== '');
  const reading: CellReading = { decimalMark: read.decimalMark, dateOrder: read.dateOrder, asOf };
  const type = profileRole(read.header, column, cells, reading);
  const lengths = new Set(cells.map((cell) => cell.length));
  const nothing = { unread: 0, lowest: null, highest: null, mean: null, unit: null };
  const base = {
    column: read.header,
    type,
    missing: all.length - cells.length,
    distinct: cells.length === 0 ? 0 : new Series(cells).nUnique(),
    shortest: cells.length === 0 ? null : Math.min(...lengths),
    longest: cells.length === 0 ? null : Math.max(...lengths),
  };
  if (type === 'number') {
    const numbers = cells.flatMap((cell) => cellNumber(cell, reading) ?? []);
    const unread = cells.length - numbers.length;
    if (numbers.length === 0) return { ...base, ...nothing, unread };
    const series = new Series(numbers);
    return {
      ...base,
      unread,
      lowest: series.min(),
      highest: series.max(),
      mean: series.mean(),
      unit: column?.unit === 'count' ? null : read.unit,
    };
  }
  const values =
    type === 'date'
      ? cells.flatMap((cell) => cellDay(cell, reading) ?? []).sort()
      : type === 'name'
        ? cells.toSorted((a, b) => inOrder.compare(a, b))
        : [];
  return {
    ...base,
    ...nothing,
    unread: type === 'date' ? cells.length - values.length : 0,
    lowest: values[0] ?? null,
    highest: values.at(-1) ?? null,
  };
}
