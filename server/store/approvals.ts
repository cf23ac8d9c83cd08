import type { IntervalApproval } from '../../models/schema/sampleView.ts';
import type { Store } from './openStore.ts';
import { raiseRevision } from './settings.ts';

/** What is written down when an interval is approved. */
export type NewApproval = Omit<IntervalApproval, 'id' | 'withdrawnOn' | 'withdrawnBy'> & {
  readonly madeAt: string;
};

interface ApprovalRow {
  readonly id: number;
  readonly unitNumber: string;
  readonly intervalKm: number;
  readonly approvedBy: string;
  readonly approvedOn: string;
  readonly note: string | null;
  readonly evidence: string;
  readonly withdrawnOn: string | null;
  readonly withdrawnBy: string | null;
}

/** Every approval that was ever given, withdrawn ones included, oldest first. */
export function loadApprovals(store: Store): IntervalApproval[] {
  const rows = store.sqlite
    .prepare(
      `SELECT id, unit_number AS unitNumber, interval_km AS intervalKm, approved_by AS approvedBy,
        approved_on AS approvedOn, note, evidence, withdrawn_on AS withdrawnOn, withdrawn_by AS withdrawnBy
       FROM interval_approval ORDER BY id`,
    )
    .all() as ApprovalRow[];
  return rows.map((row) => ({ ...row, evidence: JSON.parse(row.evidence) as string[] }));
}

/** Writes an approval down; what was computed before it no longer holds. */
export function addApproval(store: Store, approval: NewApproval): IntervalApproval {
  const { madeAt, ...kept } = approval;
  const id = store.sqlite.transaction(() => {
    const { lastInsertRowid } = store.sqlite
      .prepare(
        `INSERT INTO interval_approval (unit_number, interval_km, approved_by, approved_on, note, evidence, made_at)
         VALUES (?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        kept.unitNumber,
        kept.intervalKm,
        kept.approvedBy,
        kept.approvedOn,
        kept.note,
        JSON.stringify(kept.evidence),
        madeAt,
      );
    raiseRevision(store);
    return Number(lastInsertRowid);
  })();
  return { id, ...kept, withdrawnOn: null, withdrawnBy: null };
}

/** Withdraws what stands for a unit. @returns how many approvals that were */
export function withdrawApprovals(store: Store, unitNumber: string, by: string, on: string): number {
  return store.sqlite.transaction(() => {
    const { changes } = store.sqlite
      .prepare(
        `UPDATE interval_approval SET withdrawn_on = ?, withdrawn_by = ?
         WHERE lower(unit_number) = lower(?) AND withdrawn_on IS NULL`,
      )
      .run(on, by, unitNumber);
    if (changes > 0) raiseRevision(store);
    return changes;
  })();
}
