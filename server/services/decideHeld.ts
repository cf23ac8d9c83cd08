import type { z } from 'zod';
import type { endpoints } from '../../models/schema/endpoints.ts';
import { kindTable } from '../../models/schema/kinds.ts';
import { noteDecision, removeRecordOfLine, waitingRow, type WaitingRow } from '../store/heldDecisions.ts';
import { openStore, type Store } from '../store/openStore.ts';
import { recordWriter, fingerprintOf } from '../store/records.ts';
import { raiseRevision } from '../store/settings.ts';
import { spellingOfUnit } from '../store/unitSpelling.ts';
import { vocabulary } from '../vocabulary.ts';
import { replacedPlaces } from '../store/replacedRows.ts';
import { readersByMap } from './intake/tryAgain.ts';

type Decision = z.infer<(typeof endpoints)['decideHeld']['body']>;
type Outcome = z.infer<(typeof endpoints)['decideHeld']['response']>;

/** Decides held rows one by one; each that can't be done says why and waits on. */
export async function decideHeld(
  storeFile: string,
  decision: Decision,
  who: { by: string; at: string; today: string },
): Promise<Outcome> {
  const store = await openStore(storeFile);
  try {
    const readerOf = readersByMap(vocabulary(), who.today);
    const replaced = decision.action === 'reopen' ? replacedPlaces(store) : new Set<string>();
    let done = 0;
    const refused: Outcome['refused'] = [];
    store.sqlite.transaction(() => {
      for (const id of decision.ids) {
        const row = waitingRow(store, id);
        const message =
          row === null
            ? `There is no held row ${id}.`
            : decideOne(store, row, decision, { readerOf, replaced }, who);
        if (message === null) done += 1;
        else refused.push({ id, message });
      }
      if (done > 0) raiseRevision(store);
    })();
    return { done, refused };
  } finally {
    await store.close();
  }
}

/** @returns null when done, else why not */
function decideOne(
  store: Store,
  row: WaitingRow,
  decision: Decision,
  { readerOf, replaced }: { readerOf: ReturnType<typeof readersByMap>; replaced: ReadonlySet<string> },
  who: { by: string; at: string },
): string | null {
  if (decision.action === 'reopen') {
    if (row.state === 'held') return 'This row waits already.';
    if (replaced.has(`${row.fileId}:${row.line}`))
      return 'A corrected file replaced this row; take that intake back to have it again.';
    if (row.state === 'accepted') removeRecordOfLine(store, row.kind, row.fileId, row.line);
    noteDecision(store, row, 'reopen', null, who.by, who.at);
    return null;
  }
  if (row.state !== 'held') return 'This row was decided already; reopen it first.';
  if (decision.action === 'reject') {
    noteDecision(store, row, 'reject', null, who.by, who.at);
    return null;
  }
  if (decision.cells !== undefined && decision.ids.length !== 1)
    return 'Cells can be changed in one row at a time.';
  const given = decision.cells === undefined ? row.mendCells : JSON.stringify(decision.cells);
  const mended = decision.action === 'mend' ? given : null;
  if (decision.action === 'mend' && mended === null)
    return 'There is no suggested mend for this row. Change its cells, accept it as it is or reject it.';
  const result = readerOf(row.columnMap)(JSON.parse(mended ?? row.raw) as string[]);
  if (!result.ok)
    return `The row still can't be taken: ${result.reasons.map((reason) => reason.message).join('; ')}. Change the cell and take it in as changed.`;
  const { record } = result;
  if (row.kind !== 'units' && kindTable[row.kind].keyFields.includes('unitNumber')) {
    const spelling = spellingOfUnit(store, String(record.unitNumber));
    if (spelling === null)
      return `There is no unit ${String(record.unitNumber)}. Bring in a units file that has it, or correct the number.`;
    record.unitNumber = spelling;
  }
  const writer = recordWriter(store, row.kind);
  const fingerprint = fingerprintOf(writer.fields.map((field) => record[field]));
  writer.insert(row.fileId, row.line, row.raw, record, fingerprint);
  noteDecision(store, row, mended === null ? 'accept' : 'mend', mended, who.by, who.at);
  return null;
}
