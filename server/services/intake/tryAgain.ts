import { compileRowReader, type RowRead } from '../../../models/intake/readRow.ts';
import type { Recognised } from '../../../models/intake/recognised.ts';
import type { Vocabulary } from '../../../models/intake/synonyms.ts';
import { releaseHeld, waitingFor } from '../../store/heldDecisions.ts';
import type { IntakeWriter } from '../../store/intakeWriter.ts';
import type { Store } from '../../store/openStore.ts';
import type { Known } from './takeTable.ts';

/** Makes one row reader per column map; files of one layout share it. */
export function readersByMap(
  vocabulary: Vocabulary,
  today: string,
): (columnMap: string) => (cells: string[]) => RowRead {
  const readers = new Map<string, (cells: string[]) => RowRead>();
  return (columnMap) => {
    const known = readers.get(columnMap);
    if (known !== undefined) return known;
    const made = compileRowReader(JSON.parse(columnMap) as Recognised, vocabulary, { asOf: today });
    readers.set(columnMap, made);
    return made;
  };
}

/**
 * Tries rows again that were held because their unit was not known.
 * @returns how many became records, and how many still wait
 */
export function tryUnknownUnits(
  store: Store,
  writer: IntakeWriter,
  vocabulary: Vocabulary,
  known: Known,
  today: string,
): { accepted: number; stillHeld: number } {
  const readerOf = readersByMap(vocabulary, today);
  let accepted = 0;
  let stillHeld = 0;
  for (const row of waitingFor(store, ['unknown_unit_number'])) {
    const result = readerOf(row.columnMap)(JSON.parse(row.raw) as string[]);
    const unitKey = result.ok ? String(result.record.unitNumber).toLowerCase() : '';
    const unitNumber = known.unitNumbers.get(unitKey);
    if (!result.ok || unitNumber === undefined) {
      stillHeld += 1;
      continue;
    }
    const record = { ...result.record, unitNumber };
    writer.accept(row.fileId, row.line, row.raw, row.kind, record);
    known.touched.add(unitNumber);
    releaseHeld(store, row.id);
    accepted += 1;
  }
  return { accepted, stillHeld };
}
