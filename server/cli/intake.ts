import { existsSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Paths } from '../config.ts';
import { columnMap, type ColumnMap } from '../../models/intake/columnMap.ts';
import { writeHeldFile } from '../files/heldFile.ts';
import type { IntakeReport } from '../../models/schema/intake.ts';
import type { RecordKind } from '../../models/schema/kinds.ts';
import type { IntakeProgress } from '../services/intake/intakeProgress.ts';
import { takeIn } from '../services/takeIn.ts';
import { listHeld } from '../store/heldRows.ts';
import { openStore } from '../store/openStore.ts';
import { printJson, Refusal } from './refusal.ts';

interface IntakeWords {
  readonly kind?: RecordKind;
  readonly map?: string;
  readonly measures?: 'metric' | 'us';
  readonly dateOrder?: 'ymd' | 'dmy' | 'mdy';
  readonly corrected?: 'replace' | 'add';
  readonly dryRun: boolean;
  readonly held?: string;
  readonly json: boolean;
}

/** Brings files in. Refused, with nothing changed, when a file can't be read or leaves a question open. */
export async function intake(paths: Paths, names: readonly string[], options: IntakeWords): Promise<void> {
  for (const name of names) if (!existsSync(name)) throw new Refusal(`${name}: there is no such file`);
  const isNew = !existsSync(paths.ownStore);
  const files = names.map((path) => ({ name: basename(path), path }));
  const report = await takeIn(isNew && options.dryRun ? ':memory:' : paths.ownStore, files, {
    kind: options.kind,
    measures: options.measures,
    dateOrder: options.dateOrder,
    corrected: options.corrected,
    map: options.map === undefined ? undefined : readMap(options.map),
    dryRun: options.dryRun,
    by: 'command line',
    today: new Date().toISOString().slice(0, 10),
    progress: process.stderr.isTTY === true ? showProgress : undefined,
  });
  if (process.stderr.isTTY === true) process.stderr.write('\r\x1b[K');
  for (const file of report.files)
    if (file.columnsBy !== undefined)
      process.stderr.write(`${file.file}: columns by the map ${file.columnsBy}\n`);
  if (options.json) printJson(report);
  else say(report);
  if (!options.json) for (const file of report.files) sayDifferences(file);
  if (report.batch !== null && options.held !== undefined && report.committed)
    await writeHeld(paths, report.batch, options.held);
  const [refused] = report.refused ?? [];
  if (refused !== undefined) throw new Refusal(`${refused.file}: ${refused.message}`);
  const [question] = report.questions;
  if (question !== undefined)
    throw new Refusal(
      `${question.file}: ${question.question} Nothing was taken in. Answer with ${question.answerWith}`,
    );
}

/** @throws Refusal when the file is no column map */
function readMap(file: string): ColumnMap {
  try {
    return columnMap.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch (error) {
    const why = (error as Error).message.replaceAll(/\s+/g, ' ').slice(0, 200);
    throw new Refusal(
      `--map: ${file} must be JSON like {"columns": {"Km": {"field": "odometerKm"}}}; ${why}`,
    );
  }
}

async function writeHeld(paths: Paths, batch: string, file: string): Promise<void> {
  const store = await openStore(paths.ownStore);
  try {
    const { rows } = listHeld(store, { after: 0, limit: 10_000_000, batch: Number(batch) });
    writeHeldFile(file, rows);
  } finally {
    await store.close();
  }
}

function say(report: IntakeReport): void {
  const lines = report.files.map(
    (file) =>
      `${file.file}: ${file.kind}, ${file.rowsRead} rows = ${file.accepted} accepted + ${file.duplicates} duplicates + ${file.held} held + ${file.rejected} rejected` +
      (file.unknownColumns !== undefined && file.unknownColumns.length > 0
        ? `; columns not known, kept with the rows: ${file.unknownColumns.join(', ')}`
        : ''),
  );
  for (const reason of report.reasons)
    lines.push(
      `  held ${reason.count} × ${reason.code}${reason.message === undefined ? '' : `: ${reason.message}`}`,
    );
  if (report.triedAgain !== undefined && report.triedAgain.accepted > 0)
    lines.push(`${report.triedAgain.accepted} rows held before could be taken in now.`);
  if (report.committed)
    lines.push(`Batch ${report.batch} is in. "sumpwise undo ${report.batch}" takes it back.`);
  else if (report.questions.length === 0 && (report.refused ?? []).length === 0)
    lines.push('Dry run: nothing was changed.');
  process.stdout.write(`${lines.join('\n')}\n`);
}

const mostLines = 20;

function sayDifferences({ file, corrects }: IntakeReport['files'][number]): void {
  if (corrects === undefined) return;
  const lines = [
    `${file} beside the file of batch ${corrects.batch}: ${corrects.same} rows the same, ${corrects.changed} changed, ${corrects.added} new, ${corrects.gone} gone`,
    ...corrects.differences
      .slice(0, mostLines)
      .map(
        ({ earlierLine, line, row, cells }) =>
          `  line ${earlierLine} → ${line} (${row}): ${cells.map(({ column, was, is }) => `${column} ${was === '' ? 'empty' : was} → ${is === '' ? 'empty' : is}`).join(', ')}`,
      ),
    ...(corrects.changed > mostLines ? [`  and ${corrects.changed - mostLines} more; --json has 200`] : []),
    ...corrects.goneRows
      .slice(0, mostLines)
      .map(({ line, cells }) => `  line ${line} gone: ${cells.join(', ')}`),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
}

const barCells = 30;

/** A bar on a terminal, drawn anew in its place. */
function showProgress({ file, rows, share }: IntakeProgress): void {
  const full = Math.round(share * barCells);
  const bar = '#'.repeat(full) + '.'.repeat(barCells - full);
  const words = rows > 0 ? `${file}, ${rows} rows` : file;
  process.stderr.write(`\r\x1b[K[${bar}] ${Math.floor(100 * share)} % ${words}`);
}
