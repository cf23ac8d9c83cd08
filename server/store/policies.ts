import type { AdoptedPolicy } from '../../models/schema/policyDocument.ts';
import type { Store } from './openStore.ts';
import { raiseRevision } from './settings.ts';

/** What is written down when an interval is adopted. */
export type NewPolicy = Omit<AdoptedPolicy, 'id' | 'withdrawnOn' | 'withdrawnBy'> & {
  readonly madeAt: string;
};

/** Every interval that was ever adopted, withdrawn ones included, oldest first. */
export function loadPolicies(store: Store): AdoptedPolicy[] {
  return store.sqlite
    .prepare(
      `SELECT id, duty, interval_km AS intervalKm, adopted_by AS adoptedBy, adopted_on AS adoptedOn, note,
        withdrawn_on AS withdrawnOn, withdrawn_by AS withdrawnBy
       FROM interval_policy ORDER BY id`,
    )
    .all() as AdoptedPolicy[];
}

/** Writes an adoption down; what was computed before it no longer holds. */
export function addPolicy(store: Store, policy: NewPolicy): AdoptedPolicy {
  const { madeAt, ...kept } = policy;
  const id = store.sqlite.transaction(() => {
    const { lastInsertRowid } = store.sqlite
      .prepare(
        `INSERT INTO interval_policy (duty, interval_km, adopted_by, adopted_on, note, made_at)
         VALUES (?, ?, ?, ?, ?, ?)`,
      )
      .run(kept.duty, kept.intervalKm, kept.adoptedBy, kept.adoptedOn, kept.note, madeAt);
    raiseRevision(store);
    return Number(lastInsertRowid);
  })();
  return { id, ...kept, withdrawnOn: null, withdrawnBy: null };
}

/** Withdraws adoptions by their ids. @returns how many stood */
export function withdrawPolicies(store: Store, ids: readonly number[], by: string, on: string): number {
  return store.sqlite.transaction(() => {
    const end = store.sqlite.prepare(
      'UPDATE interval_policy SET withdrawn_on = ?, withdrawn_by = ? WHERE id = ? AND withdrawn_on IS NULL',
    );
    const changes = ids.reduce((sum, id) => sum + end.run(on, by, id).changes, 0);
    if (changes > 0) raiseRevision(store);
    return changes;
  })();
}
