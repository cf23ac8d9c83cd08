import type { HeldRow } from '../../models/schema/intake.ts';
import type { Store } from './openStore.ts';

interface HeldLine {
  id: number;
  file: string;
  sheet: string | null;
  line: number;
  kind: string;
  unitNumber: string | null;
  code: string;
  message: string;
  mend: string | null;
  header: string;
  raw: string;
  mended: string | null;
  state: HeldRow['state'];
  decidedAt: string | null;
  decidedBy: string | null;
}

const select = `SELECT h.id, f.name AS file, f.sheet, h.line, h.kind, h.unit_number AS unitNumber, h.code, h.message,
  h.mend, f.header, h.raw, h.mended, h.state, h.decided_at AS decidedAt, h.decided_by AS decidedBy
  FROM held_row h JOIN intake_file f ON f.id = h.file_id`;

function heldRowOf(row: HeldLine): HeldRow {
  const { sheet, mended, header, raw, file, ...rest } = row;
  return {
    ...rest,
    file: sheet === null ? file : `${file}#${sheet}`,
    header: JSON.parse(header) as string[],
    cells: JSON.parse(mended ?? raw) as string[],
  };
}

/** Held rows in order of arrival, filtered by reason code and state. */
export function listHeld(
  store: Store,
  filter: { code?: string; state?: string; after: number; limit: number; batch?: number },
): { rows: HeldRow[]; next: string | null } {
  const rows = store.sqlite
    .prepare(
      `${select} WHERE h.id > @after AND h.state = @state AND (@code IS NULL OR h.code = @code)
       AND (@batch IS NULL OR f.batch_id = @batch) ORDER BY h.id LIMIT @limit`,
    )
    .all({
      after: filter.after,
      limit: filter.limit,
      state: filter.state ?? 'held',
      code: filter.code ?? null,
      batch: filter.batch ?? null,
    }) as HeldLine[];
  return {
    rows: rows.map(heldRowOf),
    next: rows.length === filter.limit ? String(rows[rows.length - 1].id) : null,
  };
}

/** How many wait for each reason, most first, with one of the messages. */
export function groupHeld(store: Store): { code: string; count: number; message: string }[] {
  return store.sqlite
    .prepare(
      `SELECT code, count(*) AS count, min(message) AS message FROM held_row WHERE state = 'held'
       GROUP BY code ORDER BY count DESC, code`,
    )
    .all() as { code: string; count: number; message: string }[];
}
