import type { RecordKind } from '../../models/schema/kinds.ts';
import type { Store } from './openStore.ts';
import { fingerprintOf, readRecords, recordWriter, type PlainRecord } from './records.ts';
import { heldHash } from './rowWriter.ts';

/** Why a row of an earlier file is rejected: a corrected file tells it anew. */
const replacedCode = 'replaced';

/** The file that a new one may correct. */
export interface EarlierFile {
  readonly id: number;
  readonly batch: number;
  readonly contentHash: string;
}

/** A row of a file with what became of it. */
export interface EarlierRow {
  readonly line: number;
  readonly raw: string;
  readonly as: 'record' | 'duplicate' | 'held' | 'accepted';
}

/** The newest standing file of that name, sheet, kind and header; null without one. */
export function earlierFile(
  store: Store,
  file: { name: string; sheet: string | null; kind: RecordKind; header: readonly string[] },
): EarlierFile | null {
  const found = store.sqlite
    .prepare(
      `SELECT f.id, f.batch_id AS batch, f.content_hash AS contentHash
       FROM intake_file f JOIN batch b ON b.id = f.batch_id
       WHERE f.name = ? AND f.sheet IS ? AND f.kind = ? AND f.header = ? AND b.undone_at IS NULL
       ORDER BY f.id DESC LIMIT 1`,
    )
    .get(file.name, file.sheet, file.kind, JSON.stringify(file.header)) as EarlierFile | undefined;
  return found ?? null;
}

/** Every row of a file that was no heading, total or remark, by line. */
export function rowsOfFile(store: Store, fileId: number, kind: RecordKind): IterableIterator<EarlierRow> {
  return store.sqlite
    .prepare(
      `SELECT line, raw, 'record' AS "as" FROM ${kind} WHERE file_id = @f
         AND line NOT IN (SELECT line FROM held_row WHERE file_id = @f)
       UNION ALL SELECT line, raw, 'duplicate' FROM duplicate_row WHERE file_id = @f
       UNION ALL SELECT line, raw, state FROM held_row WHERE file_id = @f AND state IN ('held', 'accepted')
       ORDER BY line`,
    )
    .iterate({ f: fileId }) as IterableIterator<EarlierRow>;
}

interface Replacement {
  readonly batch: number;
  readonly message: string;
  readonly by: string;
  readonly at: string;
}

/**
 * Takes a row of an earlier file out of use: its record goes, its text stays as a rejected row of that file, and what it
 * was is kept for taking the correction back.
 * @returns the unit numbers of records that went
 */
export function withdrawRow(
  store: Store,
  kind: RecordKind,
  fileId: number,
  row: EarlierRow,
  how: Replacement,
): string[] {
  const { sqlite } = store;
  const places =
    row.as === 'duplicate'
      ? (sqlite
          .prepare(
            `SELECT r.file_id AS fileId, r.line FROM ${kind} r
             JOIN duplicate_row d ON d.fingerprint = r.fingerprint AND d.file_id = ? AND d.line = ? ORDER BY r.id LIMIT 1`,
          )
          .all(fileId, row.line) as { fileId: number; line: number }[])
      : [{ fileId, line: row.line }];
  const units: string[] = [];
  for (const place of places) {
    const held = sqlite
      .prepare(
        `SELECT id, state FROM held_row WHERE file_id = ? AND line = ? AND state IN ('held', 'accepted')`,
      )
      .get(place.fileId, place.line) as { id: number; state: string } | undefined;
    const [record] = readRecords<PlainRecord>(store, kind, 'WHERE t.file_id = ? AND t.line = ?', [
      place.fileId,
      place.line,
    ]);
    const raw =
      record === undefined
        ? row.raw
        : (sqlite.prepare(`SELECT raw FROM ${kind} WHERE id = ?`).pluck().get(record.id) as string);
    sqlite
      .prepare(
        'INSERT INTO replaced_row (batch_id, file_id, line, kind, raw, record, held_state) VALUES (?, ?, ?, ?, ?, ?, ?)',
      )
      .run(
        how.batch,
        place.fileId,
        place.line,
        kind,
        raw,
        record === undefined ? null : JSON.stringify(record.record),
        held?.state ?? null,
      );
    if (record !== undefined) {
      sqlite.prepare(`DELETE FROM ${kind} WHERE id = ?`).run(record.id);
      if (typeof record.record.unitNumber === 'string') units.push(record.record.unitNumber);
    }
    if (held === undefined)
      sqlite
        .prepare(
          `INSERT INTO held_row (file_id, line, kind, unit_number, code, message, raw, raw_hash, state, decided_at, decided_by)
           VALUES (?, ?, ?, ?, ?, ?, ?, ?, 'rejected', ?, ?)`,
        )
        .run(
          place.fileId,
          place.line,
          kind,
          units[units.length - 1] ?? null,
          replacedCode,
          how.message,
          raw,
          heldHash(kind, raw),
          how.at,
          how.by,
        );
    else
      sqlite
        .prepare(`UPDATE held_row SET state = 'rejected', decided_at = ?, decided_by = ? WHERE id = ?`)
        .run(how.at, how.by, held.id);
  }
  return units;
}

/** Files and lines of rows that a standing correction replaced. */
export function replacedPlaces(store: Store): Set<string> {
  const places = store.sqlite
    .prepare(`SELECT file_id || ':' || line FROM replaced_row`)
    .pluck()
    .iterate() as IterableIterator<string>;
  return new Set(places);
}

/** The newest batch that replaced rows of a batch which itself replaced earlier ones; null without one. */
export function correctedSince(store: Store, batch: number): number | null {
  return store.sqlite
    .prepare(
      `SELECT max(r.batch_id) FROM replaced_row r JOIN intake_file f ON f.id = r.file_id
       WHERE f.batch_id = @batch AND r.batch_id <> @batch
         AND EXISTS (SELECT 1 FROM replaced_row own WHERE own.batch_id = @batch)`,
    )
    .pluck()
    .get({ batch }) as number | null;
}

interface ReplacedRow {
  readonly fileId: number;
  readonly line: number;
  readonly kind: RecordKind;
  readonly raw: string;
  readonly record: string | null;
  readonly heldState: string | null;
}

/** Gives back what a batch replaced, where the file that it came from still stands. */
export function giveBack(store: Store, batch: number): void {
  const { sqlite } = store;
  const rows = sqlite
    .prepare(
      `SELECT r.file_id AS fileId, r.line, r.kind, r.raw, r.record, r.held_state AS heldState FROM replaced_row r
       JOIN intake_file f ON f.id = r.file_id JOIN batch b ON b.id = f.batch_id
       WHERE r.batch_id = ? AND b.undone_at IS NULL ORDER BY r.id`,
    )
    .all(batch) as ReplacedRow[];
  for (const row of rows) {
    if (row.heldState === null)
      sqlite
        .prepare('DELETE FROM held_row WHERE file_id = ? AND line = ? AND code = ?')
        .run(row.fileId, row.line, replacedCode);
    else
      sqlite
        .prepare(`UPDATE held_row SET state = ? WHERE file_id = ? AND line = ? AND state = 'rejected'`)
        .run(row.heldState, row.fileId, row.line);
    if (row.record === null) continue;
    const record = JSON.parse(row.record) as PlainRecord;
    const writer = recordWriter(store, row.kind);
    writer.insert(
      row.fileId,
      row.line,
      row.raw,
      record,
      fingerprintOf(writer.fields.map((field) => record[field])),
    );
  }
  sqlite.prepare('DELETE FROM replaced_row WHERE batch_id = ?').run(batch);
}
