import type { Generated } from 'kysely';

/** One intake command or upload. */
export interface BatchTable {
  id: Generated<number>;
  made_at: string;
  made_by: string;
  undone_at: string | null;
}

/** One file (or sheet) of a batch, with how its columns were understood. */
export interface IntakeFileTable {
  id: Generated<number>;
  batch_id: number;
  name: string;
  sheet: string | null;
  kind: string;
  content_hash: string;
  header: string;
  column_map: string;
  unknown_columns: string;
  rows_read: number;
}

/** A row that was there already. */
export interface DuplicateRowTable {
  id: Generated<number>;
  file_id: number;
  line: number;
  kind: string;
  fingerprint: number;
  raw: string;
}

/** A row that could not be taken as it is; `mended` holds the cells after a person's correction. */
export interface HeldRowTable {
  id: Generated<number>;
  file_id: number;
  line: number;
  kind: string;
  unit_number: string | null;
  code: string;
  message: string;
  mend: string | null;
  mend_cells: string | null;
  raw: string;
  mended: string | null;
  raw_hash: number;
  state: Generated<'held' | 'accepted' | 'rejected' | 'skipped'>;
  decided_at: string | null;
  decided_by: string | null;
}

export interface SettingTable {
  name: string;
  value: string;
}

export interface TaughtTextTable {
  text: string;
  reading: string;
  taught_at: string;
  taught_by: string;
}

export interface AnsweredRequestTable {
  key: string;
  route: string;
  status: number;
  body: string;
  made_at: string;
}

export interface RevisionTable {
  id: number;
  number: number;
}

/** The tables with a fixed shape; the record tables follow models/schema/columns and are reached by kind. */
export interface Database {
  batch: BatchTable;
  intake_file: IntakeFileTable;
  duplicate_row: DuplicateRowTable;
  held_row: HeldRowTable;
  setting: SettingTable;
  taught_text: TaughtTextTable;
  answered_request: AnsweredRequestTable;
  revision: RevisionTable;
}
