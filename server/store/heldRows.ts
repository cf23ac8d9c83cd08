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
  mendCells: string | null;
  fileId: number;
  state: HeldRow['state'];
  decidedAt: string | null;
  decidedBy: string | null;
}

const select = `SELECT h.id, f.name AS file, f.sheet, h.line, h.kind, h.unit_number AS unitNumber, h.code, h.message,
  h.mend, f.header, h.raw, h.mended, h.mend_cells AS mendCells, h.file_id AS fileId, h.state, h.decided_at AS decidedAt, h.decided_by AS decidedBy
  FROM held_row h JOIN intake_file f ON f.id = h.file_id`;

type Decisions = HeldRow['decisions'];

function heldRowOf(row: HeldLine, decisionsOf: (fileId: number, line: number) => Decisions): HeldRow {
  const { sheet, mended, mendCells, header, raw, file, fileId, ...rest } = row;
  return {
    ...rest,
    file: sheet === null ? file : `${file}#${sheet}`,
    header: JSON.parse(header) as string[],
    cells: JSON.parse(mended ?? raw) as string[],
    originalCells: JSON.parse(raw) as string[],
    mendCells: mendCells === null ? null : (JSON.parse(mendCells) as string[]),
    decisions: decisionsOf(fileId, row.line),
  };
}

/** Held rows in order of arrival, filtered by reason code and state. */
export function listHeld(
  store: Store,
  filter: { code?: string; state?: string; after: number; limit: number; batch?: number; unit?: string },
): { rows: HeldRow[]; next: string | null } {
  const rows = store.sqlite
    .prepare(
      `${select} WHERE h.id > @after AND h.state = @state AND (@code IS NULL OR h.code = @code)
       AND (@batch IS NULL OR f.batch_id = @batch) AND (@unit IS NULL OR lower(h.unit_number) = lower(@unit)) ORDER BY h.id LIMIT @limit`,
    )
    .all({
      after: filter.after,
      limit: filter.limit,
      state: filter.state ?? 'held',
      code: filter.code ?? null,
      batch: filter.batch ?? null,
      unit: filter.unit ?? null,
    }) as HeldLine[];
  const decisions = store.sqlite.prepare(
    'SELECT action, decided_by AS "by", decided_at AS at FROM held_decision WHERE file_id = ? AND line = ? ORDER BY id',
  );
  return {
    rows: rows.map((row) => heldRowOf(row, (file, line) => decisions.all(file, line) as Decisions)),
    next: rows.length === filter.limit ? String(rows[rows.length - 1].id) : null,
  };
}

/** How many wait for each reason, most first, with one of the messages. */
export function groupHeld(
  store: Store,
): { code: string; count: number; message: string; mendable: number }[] {
  return store.sqlite
    .prepare(
      `SELECT code, count(*) AS count, min(message) AS message, count(mend_cells) AS mendable FROM held_row WHERE state = 'held'
       GROUP BY code ORDER BY count DESC, code`,
    )
    .all() as { code: string; count: number; message: string; mendable: number }[];
}

/** Whether any row was ever decided. */
export function anyDecided(store: Store): boolean {
  return store.sqlite.prepare('SELECT 1 FROM held_decision LIMIT 1').get() !== undefined;
}
