import { futureYearMend } from '../../../models/intake/dateMends.ts';
import { mendedCells } from '../../../models/intake/mendCells.ts';
import { compileRowReader } from '../../../models/intake/readRow.ts';
import type { Vocabulary } from '../../../models/intake/synonyms.ts';
import { kindTable, type RecordKind } from '../../../models/schema/kinds.ts';
import type { IntakeFileReport } from '../../../models/schema/intake.ts';
import type { IntakeWriter } from '../../store/intakeWriter.ts';
import { heldHash } from '../../store/rowWriter.ts';
import { tell, type ProgressOptions } from './intakeProgress.ts';
import type { ReadyTable } from './openFiles.ts';
import { rowCounter, type RowCounter } from './rowCounter.ts';
import { unitSpellings } from './unitSpellings.ts';

/** What is known before a table is read; grows while tables are read. */
export interface Known {
  /** how often each row is there already, by kind */
  readonly rows: Map<RecordKind, RowCounter>;
  readonly held: Map<RecordKind, RowCounter>;
  /** unit numbers as the units file spells them, by lower case */
  readonly unitNumbers: Map<string, string>;
  /** units whose records changed in this batch */
  readonly touched: Set<string>;
}

interface TakeOptions extends ProgressOptions {
  readonly today: string;
}

const shownRows = 5;
const skipWords = {
  header_again: 'the header again: left out',
  totals: 'a line of totals: left out',
  remark: 'a remark: left out',
} as const;
const faultWords = {
  too_many_cells:
    'The row has more cells than there are columns. Put texts that hold the separator in quotes.',
  row_cut_off: 'The row was cut off at the end of the file. Send the whole file again.',
  quote_swallowed_rows:
    'A quote in this row is never closed and swallowed the rows after it. Mend the quote.',
} as const;

const remember = <K, V>(map: Map<K, V>, key: K, make: () => V): V => {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
};

const counted = (fingerprints: Iterable<number>): RowCounter => {
  const counter = rowCounter();
  for (const fingerprint of fingerprints) counter.addKnown(fingerprint);
  return counter;
};

/**
 * Reads one table into the batch: each row is accepted, a duplicate, held with a reason, or left out as no record.
 * @returns counts of the file as they stand after reading, before meters are compared
 */
export async function takeTable(
  writer: IntakeWriter,
  ready: ReadyTable,
  vocabulary: Vocabulary,
  known: Known,
  options: TakeOptions,
  part: { readonly before: number; readonly weight: number } = { before: 0, weight: 1 },
): Promise<IntakeFileReport> {
  const kind = ready.recognised.kind;
  if (kind === null) throw new Error(`${ready.file}: its kind must be settled before it is taken in`);
  const read = compileRowReader(ready.recognised, vocabulary, { asOf: options.today });
  const fileId = writer.addFile({
    name: ready.file,
    sheet: ready.sheet,
    kind,
    contentHash: ready.contentHash,
    header: ready.table.columns,
    columnMap: JSON.stringify(ready.recognised),
    unknownColumns: ready.recognised.unknownColumns,
  });
  const hasUnit = kindTable[kind].keyFields.includes('unitNumber');
  const rows = remember(known.rows, kind, () => counted(writer.knownRows(kind)));
  const heldBefore = remember(known.held, kind, () => counted(writer.heldHashes(kind)));
  const unitOf = unitSpellings(known.unitNumbers);
  const accept = writer.acceptor(kind, [
    ...ready.recognised.columns.flatMap(({ field }) => (field === null ? [] : [field])),
    ...Object.keys(ready.recognised.constants),
  ]);
  const report: IntakeFileReport = {
    file: ready.sheet === null ? ready.file : `${ready.file}#${ready.sheet}`,
    kind,
    rowsRead: 0,
    accepted: 0,
    duplicates: 0,
    held: 0,
    rejected: 0,
    ...(ready.columnsBy !== null && { columnsBy: ready.columnsBy }),
    columns: ready.recognised.columns.map(({ header, field, unit, confidence, why }) => ({
      header,
      field,
      unit,
      confidence,
      why,
    })),
    unknownColumns: ready.recognised.unknownColumns.filter((name) => name !== ''),
    sampleRows: [],
  };
  const hold = (
    line: number,
    raw: string,
    unitNumber: string | null,
    code: string,
    message: string,
    mend: { words: string; cells: readonly string[] | null } | null = null,
  ): void => {
    const hash = heldHash(kind, raw);
    if (heldBefore.has(hash)) {
      writer.duplicate(fileId, line, kind, hash, raw);
      report.duplicates += 1;
      return;
    }
    heldBefore.addKnown(hash);
    writer.hold({
      ...{ fileId, line, kind, unitNumber, code, message, raw, state: 'held' },
      mend: mend?.words ?? null,
      mendCells: mend?.cells ?? null,
    });
    report.held += 1;
  };
  for await (const batch of ready.table.rows()) {
    for (const row of batch) {
      report.rowsRead += 1;
      const raw = JSON.stringify(row.cells);
      if (row.skip !== null) {
        writer.hold({
          fileId,
          line: row.line,
          kind,
          unitNumber: null,
          code: row.skip,
          message: skipWords[row.skip],
          mend: null,
          raw,
          state: 'skipped',
        });
        report.rejected += 1;
        continue;
      }
      if (row.fault !== null) {
        hold(row.line, raw, null, row.fault, faultWords[row.fault]);
        continue;
      }
      const result = read(row.cells);
      if (!result.ok) {
        const mend = futureYearMend(result.reasons, row.cells, ready.recognised, options.today);
        hold(
          row.line,
          raw,
          null,
          result.reasons[0].code,
          result.reasons.map((reason) => reason.message).join('; '),
          mend === null
            ? null
            : {
                words: mend.words,
                cells: mendedCells(row.cells, ready.recognised, mend, options.today),
              },
        );
        continue;
      }
      const { record } = result;
      const unit = hasUnit ? unitOf(String(record.unitNumber)) : null;
      const unitNumber = unit === null ? null : unit.spelling;
      if (unitNumber !== null) record.unitNumber = unitNumber;
      const fingerprint = writer.fingerprint(kind, record);
      rows.meet(fingerprint);
      const { seen } = rows;
      if (rows.before > seen) {
        writer.duplicate(fileId, row.line, kind, fingerprint, raw);
        report.duplicates += 1;
        continue;
      }
      if (seen > 0 && kind === 'service' && record.recordId === null) {
        hold(
          row.line,
          raw,
          unitNumber,
          'repeat_same_day',
          'The same row stands twice in this file. If both happened, accept it; if one is a copy, reject it.',
        );
        continue;
      }
      if (seen > 0) {
        writer.duplicate(fileId, row.line, kind, fingerprint, raw);
        report.duplicates += 1;
        continue;
      }
      if (unit !== null && kind !== 'units' && !unit.isKnown) {
        hold(
          row.line,
          raw,
          unitNumber,
          'unknown_unit_number',
          `There is no unit ${unitNumber}. Bring in a units file that has it, or correct the number; the row is tried again then.`,
        );
        continue;
      }
      if (heldBefore.isEmpty === false && heldBefore.has(heldHash(kind, raw))) {
        writer.duplicate(fileId, row.line, kind, fingerprint, raw);
        report.duplicates += 1;
        continue;
      }
      accept(fileId, row.line, raw, record, fingerprint);
      report.accepted += 1;
      if (unit !== null) {
        if (kind === 'units') unit.isKnown = true;
        if (!unit.isTouched) known.touched.add(unit.spelling);
        unit.isTouched = true;
      }
      if ((report.sampleRows?.length ?? 0) < shownRows) report.sampleRows?.push(record);
    }
    await tell(options, { file: report.file, rows: report.rowsRead, share: ready.table.share(), ...part });
  }
  rows.endFile();
  writer.setRowsRead(fileId, report.rowsRead);
  return report;
}
