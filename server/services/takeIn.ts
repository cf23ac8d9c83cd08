import type { ColumnMap } from '../../models/intake/columnMap.ts';
import type { IntakeOptions, IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';
import { columnMapsByLayout, keepColumnMap } from '../store/columnMaps.ts';
import { heldReasons } from '../store/heldReasons.ts';
import { beginIntake } from '../store/intakeWriter.ts';
import { openStore, type Store } from '../store/openStore.ts';
import { countFiles } from '../store/verify.ts';
import { vocabulary } from '../vocabulary.ts';
import { correctedMap, knownColumns, type Corrections } from './intake/columnMaps.ts';
import {
  correctionQuestion,
  correctionReport,
  findCorrection,
  withdrawReplaced,
  type Correction,
} from './intake/corrections.ts';
import { IntakeCancelled, tell, type ProgressOptions } from './intake/intakeProgress.ts';
import { openFiles, type NamedFile, type OpenedFiles, type ReadyTable } from './intake/openFiles.ts';
import { settleMeters } from './intake/settleMeters.ts';
import { takeTable, type Known } from './intake/takeTable.ts';
import { tryUnknownUnits } from './intake/tryAgain.ts';

export interface TakeInOptions extends Partial<IntakeOptions>, ProgressOptions {
  readonly dryRun: boolean;
  /** who brings the files in */
  readonly by: string;
  /** ISO date; later dates are held as future */
  readonly today: string;
  /** a saved column map */
  readonly map?: ColumnMap;
  /** by file or file#sheet: the kind of its records, where the file leaves it open */
  readonly kinds?: Readonly<Record<string, RecordKind>>;
  /** by file or file#sheet: what columns mean, where they were understood otherwise */
  readonly corrections?: Corrections;
  /** by file or file#sheet: the name under which its corrections are kept with the commit */
  readonly keepAs?: Readonly<Record<string, string>>;
  /** writes what belongs to the batch inside its transaction; what it throws takes everything back */
  readonly alongside?: (store: Store, report: IntakeReport) => void;
}

/**
 * Takes files in as one batch, whole or not at all: a file that can't be read or leaves a question open refuses the
 * batch and the store stays as it was. A dry run does the same work and changes nothing.
 * @param storeFile path of the store; it is opened apart, so that readers see the old state until the commit
 */
export async function takeIn(
  storeFile: string,
  files: readonly NamedFile[],
  options: TakeInOptions,
): Promise<IntakeReport> {
  const names = vocabulary();
  const kept = await columnMapsByLayout(storeFile);
  const opened = await openFiles(
    files,
    names,
    { ...options.map, kind: options.kind, measures: options.measures, dateOrder: options.dateOrder },
    knownColumns(kept, options),
  );
  if (opened.refused.length > 0) return { ...nothing(opened), files: [], questions: [...opened.questions] };
  if (opened.questions.length > 0) return asked(opened, opened.questions, []);
  const store = await openStore(storeFile);
  try {
    return await takeOpened(store, opened, kept, options);
  } finally {
    await store.close();
  }
}

const nothing = ({ refused }: OpenedFiles) => ({
  batch: null,
  committed: false,
  reasons: [],
  refused: [...refused],
});

/** Questions left open, and what the files were taken for so far. */
function asked(
  opened: OpenedFiles,
  questions: readonly IntakeQuestion[],
  corrections: readonly Correction[],
): IntakeReport {
  return {
    ...nothing(opened),
    questions: [...questions],
    files: opened.tables.map((table) => {
      const { file, sheet, recognised, columnsBy } = table;
      const correction = corrections.find((each) => each.table === table);
      return {
        file: sheet === null ? file : `${file}#${sheet}`,
        kind: recognised.kind ?? 'not known',
        ...{ rowsRead: 0, accepted: 0, duplicates: 0, held: 0, rejected: 0 },
        ...(columnsBy !== null && { columnsBy }),
        columns: recognised.columns.map(({ header, field, unit, confidence, why }) => ({
          ...{ header, field, unit, confidence, why },
        })),
        ...(correction !== undefined && { corrects: correctionReport(correction) }),
      };
    }),
  };
}

/** Share of an intake that comparing with files of the same name takes, where there are any. */
const comparingShare = 0.3;

async function takeOpened(
  store: Store,
  opened: OpenedFiles,
  kept: Awaited<ReturnType<typeof columnMapsByLayout>>,
  options: TakeInOptions,
): Promise<IntakeReport> {
  const names = vocabulary();
  const corrections: Correction[] = [];
  let compared = 0;
  if (options.corrected !== 'add')
    for (const [index, table] of opened.tables.entries()) {
      const weight = comparingShare / opened.tables.length;
      const found = await findCorrection(
        store,
        table,
        options.today,
        options.corrected === 'replace',
        async (rows, share) => {
          compared = comparingShare;
          const file = `${table.file}, beside the file of this name`;
          await tell(options, { file, rows, share, before: index * weight, weight });
        },
      );
      if (found !== null) corrections.push(found);
    }
  if (options.corrected === undefined) {
    const questions = corrections.flatMap((each) => correctionQuestion(each) ?? []);
    if (questions.length > 0) return asked(opened, questions, corrections);
  }
  const writtenAt = new Date().toISOString();
  const writer = beginIntake(store, options.by, writtenAt);
  try {
    const touched = new Set<string>();
    if (options.corrected === 'replace')
      for (const correction of corrections)
        for (const unit of withdrawReplaced(store, correction, {
          batch: writer.batch,
          by: options.by,
          at: writtenAt,
        }))
          touched.add(unit);
    const known: Known = {
      rows: new Map(),
      held: new Map(),
      unitNumbers: writer.unitNumbers(),
      touched,
    };
    const reports = [];
    const weight = (1 - compared) / opened.tables.length;
    for (const [index, table] of opened.tables.entries()) {
      const part = { before: compared + index * weight, weight };
      reports.push(await takeTable(writer, table, names, known, options, part));
    }
    writer.endReading();
    await tell(options, { file: 'meters and visits over time', rows: 0, share: 1, before: 0, weight: 1 });
    const triedAgain = tryUnknownUnits(store, writer, names, known, options.today);
    settleMeters(store, writer, names, known.touched, options.today);
    const counts = [...countFiles(store, writer.batch).values()].sort((a, b) => a.fileId - b.fileId);
    const report: IntakeReport = {
      batch: String(writer.batch),
      committed: !options.dryRun,
      files: reports.map((file, index) => ({
        ...file,
        ...correctsOf(corrections, opened.tables[index]),
        accepted: counts[index].accepted,
        duplicates: counts[index].duplicates,
        held: counts[index].held,
        rejected: counts[index].rejected,
      })),
      reasons: heldReasons(store, writer.batch),
      questions: [],
      triedAgain,
    };
    if (options.dryRun) {
      writer.rollback();
      return { ...report, batch: null };
    }
    for (const table of opened.tables) {
      const map = correctedMap(table, kept, options, writtenAt);
      if (map !== null) keepColumnMap(store, map);
    }
    options.alongside?.(store, report);
    if (options.signal?.aborted === true) throw new IntakeCancelled();
    writer.commit();
    return report;
  } catch (error) {
    writer.rollback();
    throw error;
  }
}

function correctsOf(
  corrections: readonly Correction[],
  table: ReadyTable,
): { corrects?: IntakeReport['files'][number]['corrects'] } {
  const found = corrections.find((each) => each.table === table);
  return found === undefined ? {} : { corrects: correctionReport(found) };
}
