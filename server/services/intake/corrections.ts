import { compareRows, type ChangedRow, type LinedRow } from '../../../models/intake/compareRows.ts';
import { readDate } from '../../../models/intake/dateText.ts';
import { kindTable, type RecordKind } from '../../../models/schema/kinds.ts';
import type { CorrectedFile, IntakeQuestion } from '../../../models/schema/intake.ts';
import type { Store } from '../../store/openStore.ts';
import {
  earlierFile,
  rowsOfFile,
  withdrawRow,
  type EarlierFile,
  type EarlierRow,
} from '../../store/replacedRows.ts';
import { heldHash } from '../../store/rowWriter.ts';
import type { ReadyTable } from './openFiles.ts';

type Earlier = LinedRow & { readonly row: EarlierRow };

/** What a file changes of the file of the same name that is there already. */
export interface Correction {
  readonly table: ReadyTable;
  readonly kind: RecordKind;
  readonly earlier: EarlierFile;
  readonly same: number;
  readonly changed: readonly ChangedRow<Earlier, LinedRow>[];
  readonly added: number;
  /** rows of days that the new file covers, and that it no longer has */
  readonly gone: readonly Earlier[];
  /** the rows carry keys of their own: what changed is known without asking */
  readonly hasOwnKeys: boolean;
}

/** More rows than this that differ are no correction but another file. */
const mostDifferent = 20_000;
const shownRows = 200;

const nameOf = ({ file, sheet }: ReadyTable): string => (sheet === null ? file : `${file}#${sheet}`);

/**
 * Compares a table with the newest standing file of the same name and columns, row by row.
 * @param progress told while rows are compared, with their number and the share of the file
 * @returns null when there is none, it is the same file, or too little agrees for a correction
 */
export async function findCorrection(
  store: Store,
  table: ReadyTable,
  today: string,
  isTold: boolean,
  progress: (rows: number, share: number) => Promise<void> = () => Promise.resolve(),
): Promise<Correction | null> {
  const { kind, columns } = table.recognised;
  if (kind === null) return null;
  const earlier = earlierFile(store, {
    name: table.file,
    sheet: table.sheet,
    kind,
    header: table.table.columns,
  });
  if (earlier === null || earlier.contentHash === table.contentHash) return null;
  const counts = new Map<number, number>();
  let before = 0;
  for (const { raw } of rowsOfFile(store, earlier.id, kind)) {
    const hash = heldHash(kind, raw);
    counts.set(hash, (counts.get(hash) ?? 0) + 1);
    before += 1;
  }
  const atOf = (field: string): number => columns.findIndex((column) => column.field === field);
  const { dateField, keyFields } = kindTable[kind];
  const dateAt = dateField === null ? -1 : atOf(dateField);
  const dayOf = (cells: readonly string[]): string | null => {
    const cell = cells[dateAt] ?? '';
    const day = cell === '' ? 'date_unreadable' : readDate(cell, columns[dateAt].dateOrder, today);
    return day.startsWith('date_') ? null : day;
  };
  const now: LinedRow[] = [];
  let same = 0;
  let compared = 0;
  let first = '9999';
  let last = '';
  await progress(0, 0);
  for await (const batch of table.table.rows()) {
    await progress(compared, table.table.share());
    compared += batch.length;
    for (const row of batch) {
      if (row.skip !== null) continue;
      const day = dayOf(row.cells);
      if (day !== null && day < first) first = day;
      if (day !== null && day > last) last = day;
      const hash = heldHash(kind, JSON.stringify(row.cells));
      const left = counts.get(hash) ?? 0;
      if (left > 0) {
        counts.set(hash, left - 1);
        same += 1;
      } else now.push({ line: row.line, cells: row.cells });
      if (now.length > mostDifferent) return null;
    }
  }
  const lacking: Earlier[] = [];
  for (const row of rowsOfFile(store, earlier.id, kind)) {
    const hash = heldHash(kind, row.raw);
    const left = counts.get(hash) ?? 0;
    if (left === 0) continue;
    counts.set(hash, left - 1);
    lacking.push({ line: row.line, cells: JSON.parse(row.raw) as string[], row });
    if (lacking.length > mostDifferent) return null;
  }
  const ownKeyAt = atOf('recordId');
  const keyAt = ownKeyAt >= 0 ? [ownKeyAt] : keyFields.map(atOf).filter((at) => at >= 0);
  const isLoose = kind !== 'units' && ownKeyAt < 0;
  const { changed, added, gone } = compareRows(lacking, now, keyAt, isLoose ? keyAt : []);
  const sameKey = changed.filter(({ isKeyChanged }) => !isKeyChanged).length;
  const half = Math.min(before, same + now.length) / 2;
  // Next week's rows can differ from this week's in the date alone.
  const isAlike = sameKey > 0 ? same + sameKey >= half : changed.length > 0 && same >= half;
  if (changed.length + gone.length === 0 || (!isTold && !isAlike)) return null;
  const covered = gone.filter(({ cells }) => {
    const day = dayOf(cells);
    return (
      keyFields.includes('unitNumber') && kind !== 'units' && day !== null && day >= first && day <= last
    );
  });
  return {
    ...{ table, kind, earlier, same, changed, added: added.length, gone: covered },
    hasOwnKeys: ownKeyAt >= 0,
  };
}

/** The differences as people and programs see them. */
export function correctionReport({ table, earlier, same, changed, added, gone }: Correction): CorrectedFile {
  const header = table.table.columns;
  return {
    batch: String(earlier.batch),
    same,
    changed: changed.length,
    added,
    gone: gone.length,
    differences: changed.slice(0, shownRows).map(({ earlier: was, now }) => ({
      line: now.line,
      earlierLine: was.line,
      row: now.cells
        .filter((cell) => cell !== '')
        .slice(0, 3)
        .join(', '),
      cells: header.flatMap((column, at) =>
        (was.cells[at] ?? '') === (now.cells[at] ?? '')
          ? []
          : [{ column, was: was.cells[at] ?? '', is: now.cells[at] ?? '' }],
      ),
    })),
    goneRows: gone.slice(0, shownRows).map(({ line, cells }) => ({ line, cells: [...cells] })),
  };
}

/** Asked unless the rows carry keys of their own, by which a change is certain. */
export function correctionQuestion(correction: Correction): IntakeQuestion | null {
  if (correction.hasOwnKeys) return null;
  const { earlier, same, changed, added, gone } = correction;
  return {
    file: nameOf(correction.table),
    code: 'corrected_file',
    column: null,
    field: null,
    question: `Beside the file of this name in batch ${earlier.batch}, ${same} rows are the same, ${changed.length} changed, ${added} new and ${gone.length} gone. Does this file replace that one row by row, or are its rows further records?`,
    choices: ['replace', 'add'],
    answerWith: '--corrected replace or add',
  };
}

/** Takes what a corrected file replaces out of use, before its own rows are read. Returns the units touched. */
export function withdrawReplaced(
  store: Store,
  { table, kind, earlier, changed, gone, hasOwnKeys }: Correction,
  how: { batch: number; by: string; at: string },
): string[] {
  const name = nameOf(table);
  const replaced = hasOwnKeys ? [] : changed;
  return [
    ...replaced.flatMap(({ earlier: was, now }) =>
      withdrawRow(store, kind, earlier.id, was.row, {
        ...how,
        message: `Replaced by line ${now.line} of ${name} in batch ${how.batch}.`,
      }),
    ),
    ...gone.flatMap((was) =>
      withdrawRow(store, kind, earlier.id, was.row, {
        ...how,
        message: `No longer in ${name}, as corrected in batch ${how.batch}.`,
      }),
    ),
  ];
}
