import type { Store } from './openStore.ts';
import { readRecords } from './records.ts';

/** Records of a batch, or the earlier ones that its rows repeat. */
export function recordsOfBatch<T>(
  store: Store,
  kind: 'findings' | 'codes',
  batch: number,
): { id: number; record: T }[] {
  const files = 'SELECT id FROM intake_file WHERE batch_id = ?';
  return [
    ...readRecords<T>(
      store,
      kind,
      `WHERE t.file_id IN (${files}) OR t.fingerprint IN
         (SELECT d.fingerprint FROM duplicate_row d WHERE d.kind = '${kind}' AND d.file_id IN (${files}))
       ORDER BY t.id`,
      [batch, batch],
    ),
  ].map(({ id, record }) => ({ id, record }));
}
