import { checkSequence } from '../../../models/intake/checks.ts';
import type { CheckRecord, HeldRecord, UnitSpan } from '../../../models/intake/checkRecord.ts';
import { mendedCells } from '../../../models/intake/mendCells.ts';
import type { RowRecord } from '../../../models/intake/readRow.ts';
import type { Recognised } from '../../../models/intake/recognised.ts';
import type { Vocabulary } from '../../../models/intake/synonyms.ts';
import { kindTable } from '../../../models/schema/kinds.ts';
import { releaseHeld, type WaitingRow } from '../../store/heldDecisions.ts';
import type { RowWriter } from '../../store/rowWriter.ts';
import type { Store } from '../../store/openStore.ts';
import { loadTaught } from '../../store/taughtTexts.ts';
import { unitsToLookAt } from '../../store/unitMeters.ts';
import {
  fileMapReader,
  rawOfRow,
  removeRow,
  spanReader,
  trustedPlaces,
  unitRowReader,
  waitingReader,
  type PlacedRow,
  type SequenceKind,
} from '../../store/unitRows.ts';
import { workReader } from '../../workWords.ts';
import { plainUnits } from './plainUnits.ts';
import { readersByMap } from './tryAgain.ts';

/** Reasons that only the records beside a row can give; such rows are looked at again with every intake. */
export const sequenceCodes = [
  'date_before_service',
  'date_after_disposal',
  'same_visit',
  'odometer_back',
  'hours_back',
  'idle_back',
  'fuel_back',
  'odometer_jump',
  'hours_jump',
  'odometer_digit',
  'odometer_unit',
  'idle_above_hours',
  'meter_note',
] as const;

type Candidate = { readonly check: CheckRecord } & (
  | { readonly taken: PlacedRow; readonly waiting: null }
  | { readonly taken: null; readonly waiting: WaitingRow }
);

/**
 * Compares each touched unit's records over time, all of them together, so that neither the order of files nor of rows
 * matters: rows that contradict the rest are held, rows held before that fit now are taken in. What a person decided
 * stays as decided. Units whose records plainly agree, which are most, need only a quick look.
 * @param touched unit numbers as the units file spells them
 */
export function settleMeters(
  store: Store,
  writer: RowWriter,
  vocabulary: Vocabulary,
  touched: ReadonlySet<string>,
  today: string,
): void {
  const readerOf = readersByMap(vocabulary, today);
  const readWork = workReader(loadTaught(store));
  const trusted = trustedPlaces(store);
  const spansOf = spanReader(store);
  const rowsOf = unitRowReader(store);
  const waitingOf = waitingReader(store, sequenceCodes);
  const lookAt = unitsToLookAt(store, sequenceCodes);
  const isPlain = plainUnits(store, readWork);
  const mapOf = fileMapReader(store);
  for (const unitNumber of touched) {
    const spans = spansOf(unitNumber);
    if (spans.length === 0) continue;
    if (spans.length === 1 && !lookAt.has(unitNumber) && isPlain(unitNumber, spans[0])) continue;
    const candidates: Candidate[] = [];
    const existing: { check: CheckRecord }[] = [];
    const checkOf = (key: string, kind: SequenceKind, record: RowRecord, fileId: number): CheckRecord => ({
      key,
      kind,
      record,
      source: String(fileId),
      works: kind === 'service' ? readWork(String(record.work)).works : [],
      odometerUnit: odometerUnitOf(mapOf(fileId)),
    });
    for (const row of rowsOf(unitNumber)) {
      const check = checkOf(`t${row.kind}${row.id}`, row.kind, row.record as RowRecord, row.fileId);
      if (trusted.has(`${row.fileId}:${row.line}`)) existing.push({ check });
      else candidates.push({ check, taken: row, waiting: null });
    }
    for (const row of waitingOf(unitNumber)) {
      const read = readerOf(row.columnMap)(JSON.parse(row.raw) as string[]);
      if (!read.ok) continue;
      const record = { ...read.record, unitNumber };
      candidates.push({
        check: checkOf(`w${row.id}`, row.kind as SequenceKind, record, row.fileId),
        taken: null,
        waiting: row,
      });
    }
    spans.forEach((span, index) => {
      const inSpan = (check: CheckRecord): boolean => spanIndex(spans, dateOf(check)) === index;
      const mine = candidates.filter(({ check }) => inSpan(check));
      if (mine.length === 0) return;
      const result = checkSequence(
        span,
        existing.filter(({ check }) => inSpan(check)).map(({ check }) => check),
        mine.map(({ check }) => check),
      );
      apply(store, writer, unitNumber, mine, result.hold, new Set(result.repeats.map(({ key }) => key)), {
        mapOf,
        today,
      });
    });
  }
}

function dateOf(check: CheckRecord): string {
  const field = kindTable[check.kind].dateField;
  return field === null ? '' : String(check.record[field] ?? '');
}

/** The holder of the number on that day: the latest in service by then, else the first. */
function spanIndex(spans: readonly UnitSpan[], on: string): number {
  let chosen = 0;
  spans.forEach((span, index) => {
    if ((span.inServiceOn ?? '') <= on) chosen = index;
  });
  return chosen;
}

const odometerUnitOf = (map: Recognised): 'km' | 'mi' =>
  map.columns.some(({ field, unit }) => field === 'odometerKm' && unit === 'mi') ? 'mi' : 'km';

function apply(
  store: Store,
  writer: RowWriter,
  unitNumber: string,
  candidates: readonly Candidate[],
  hold: readonly HeldRecord[],
  repeated: ReadonlySet<string>,
  { mapOf, today }: { mapOf: (fileId: number) => Recognised; today: string },
): void {
  const held = new Map(hold.map((entry) => [entry.key, entry]));
  for (const candidate of candidates) {
    const entry = held.get(candidate.check.key);
    const { taken, waiting } = candidate;
    if (entry === undefined) {
      if (waiting === null || repeated.has(candidate.check.key)) continue;
      writer.accept(waiting.fileId, waiting.line, waiting.raw, waiting.kind, candidate.check.record);
      releaseHeld(store, waiting.id);
      continue;
    }
    const row = taken ?? waiting;
    const raw = taken === null ? waiting.raw : rawOfRow(store, taken.kind, taken.id);
    const { mend } = entry;
    // A replaced meter is told by a record of its own; no cell of this row can say it.
    const cells =
      mend === null || mend.how === 'meter_replaced'
        ? null
        : mendedCells(JSON.parse(raw) as string[], mapOf(row.fileId), mend, today);
    if (taken === null) releaseHeld(store, waiting.id);
    else removeRow(store, taken.kind, taken.id);
    writer.hold({
      fileId: row.fileId,
      line: row.line,
      kind: row.kind,
      unitNumber,
      code: entry.reasons[0].code,
      message: entry.reasons.map((reason) => reason.message).join('; '),
      mend: mend === null ? null : mend.words,
      mendCells: cells,
      raw,
      state: 'held',
    });
  }
}
