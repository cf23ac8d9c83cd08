import type { FitVersion } from '../../models/schema/hindcastEndpoints.ts';
import type { FitSummary } from '../../models/reliability/fleet/fitSummary.ts';
import type { FitChange } from '../../models/reliability/fleet/fitChanges.ts';
import type { Store } from './openStore.ts';

const kept = 50;

interface Row {
  version: string;
  as_of: string;
  made_at: string;
  summary: string;
  changes: string;
}

/** The newest version of the fleet's failure model that was kept, or null. */
export function newestFit(store: Store): FitSummary | null {
  const row = store.sqlite.prepare('SELECT summary FROM fit_version ORDER BY id DESC LIMIT 1').get() as
    Pick<Row, 'summary'> | undefined;
  return row === undefined ? null : (JSON.parse(row.summary) as FitSummary);
}

/** Keeps a version with what moved against the one before; the newest fifty stay. */
export function keepFit(
  store: Store,
  summary: FitSummary,
  asOf: string,
  changes: readonly FitChange[],
  at: string,
): void {
  store.sqlite
    .prepare('INSERT INTO fit_version (version, as_of, made_at, summary, changes) VALUES (?, ?, ?, ?, ?)')
    .run(summary.version, asOf, at, JSON.stringify(summary), JSON.stringify(changes));
  store.sqlite
    .prepare('DELETE FROM fit_version WHERE id NOT IN (SELECT id FROM fit_version ORDER BY id DESC LIMIT ?)')
    .run(kept);
}

/** Versions, newest first, with what moved. */
export function fitVersions(store: Store, limit: number): FitVersion[] {
  const rows = store.sqlite
    .prepare('SELECT version, as_of, made_at, summary, changes FROM fit_version ORDER BY id DESC LIMIT ?')
    .all(limit) as Row[];
  return rows.map((row) => {
    const summary = JSON.parse(row.summary) as FitSummary;
    return {
      version: row.version,
      asOf: row.as_of,
      madeAt: row.made_at,
      failures: summary.failures,
      sets: summary.episodes,
      ownDataShare: summary.ownDataShare,
      changes: JSON.parse(row.changes) as FitVersion['changes'],
    };
  });
}
