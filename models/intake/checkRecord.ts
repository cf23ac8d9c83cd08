import { dayFromIso } from '../schema/day.ts';
import { kindTable, type RecordKind } from '../schema/kinds.ts';
import type { WorkKind } from '../schema/service.ts';
import type { MeterMend } from './meterMends.ts';
import type { RowRecord } from './readRow.ts';
import type { Reason } from './reasons.ts';

/** A record of one unit as the checks over time see it. */
export interface CheckRecord {
  /** the caller's own key; never decides anything */
  readonly key: string;
  readonly kind: RecordKind;
  readonly record: RowRecord;
  /** file it came from: two files can tell of the same visit */
  readonly source: string;
  /** what the work text was read as; empty for other kinds */
  readonly works: readonly WorkKind[];
  /** unit of the source's odometer, for proposals: km where not given */
  readonly odometerUnit?: 'km' | 'mi' | undefined;
}

/** The span of a unit's service; nulls are not known. */
export interface UnitSpan {
  readonly inServiceOn: string | null;
  readonly inServiceOdometerKm: number | null;
  readonly disposedOn: string | null;
}

/** A record that is not taken as it is. */
export interface HeldRecord {
  readonly key: string;
  readonly reasons: readonly Reason[];
  /** a value proposed for the field that its reason names */
  readonly mend: (MeterMend & { readonly field: string }) | null;
}

/** A record that another one makes superfluous. */
export interface Repeat {
  readonly key: string;
  /** the record that stays */
  readonly of: string;
}

/** The day number of a record, or null when it has none. */
export function dayNumber({ kind, record }: CheckRecord): number | null {
  const { dateField } = kindTable[kind];
  const value = dateField === null ? null : record[dateField];
  return typeof value === 'string' ? dayFromIso(value) : null;
}

/** The content of a record as one text, the same for the same content. */
export function contentKey(kind: RecordKind, record: RowRecord): string {
  const fields = Object.keys(record).filter((field) => record[field] !== null && record[field] !== undefined);
  return `${kind} ${fields
    .sort()
    .map((field) => `${field}=${String(record[field])}`)
    .join(' ')}`;
}

const contents = new WeakMap<CheckRecord, string>();

/** {@link contentKey} of an entry, worked out once. */
export function contentOf(entry: CheckRecord): string {
  const known = contents.get(entry);
  if (known !== undefined) return known;
  const content = contentKey(entry.kind, entry.record);
  contents.set(entry, content);
  return content;
}
