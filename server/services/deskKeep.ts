import { findingWords } from '../../models/assessment/findingWords.ts';
import { entryQuestions } from '../../models/assessment/symptomCheck.ts';
import { symptomUnit } from '../../models/assessment/symptomUnit.ts';
import type { Code } from '../../models/schema/code.ts';
import type { DeskEntry, DeskQuestion } from '../../models/schema/deskEndpoints.ts';
import type { Finding } from '../../models/schema/finding.ts';
import { readCode } from '../../models/intake/codeText.ts';
import type { Context } from '../context.ts';
import { writeEntryFiles, type EntryTable } from '../files/entryFiles.ts';
import { fleetModels } from '../fleetModels.ts';
import { recordsOfBatch } from '../store/batchRecords.ts';
import type { Store } from '../store/openStore.ts';
import { unitViewOf } from './unitNow.ts';
import { takeIn } from './takeIn.ts';

/** A record that an entry became. */
export interface KeptRecord {
  readonly kind: 'findings' | 'codes';
  readonly id: number;
  readonly text: string;
}

export type KeepResult =
  | { noUnit: true }
  | { questions: readonly DeskQuestion[] }
  | { batch: string; kept: KeptRecord[]; messages: string[] };

/** The entry as rows of the own layout, one file per kind. */
function tablesOf(entry: DeskEntry, unitNumber: string, foundOn: string, today: string): EntryTable[] {
  const stem = `desk_${unitNumber}_${foundOn}`;
  const by = `found by ${entry.technician}`;
  const note = entry.note === null ? by : `${by}; ${entry.note}`;
  const tables: EntryTable[] = [];
  const findings = entry.findings.map((row) => [
    unitNumber,
    foundOn,
    entry.odometerKm,
    row.finding,
    row.value,
    note,
    row.bank,
    row.soakH,
    row.engineRpm,
    row.oilTemperatureC,
    today,
  ]);
  if (entry.cleared !== null)
    findings.push([
      unitNumber,
      foundOn,
      entry.odometerKm,
      'cleared',
      entry.technician,
      entry.cleared,
      null,
      null,
      null,
      null,
      today,
    ]);
  if (findings.length > 0)
    tables.push({
      name: `findings_${stem}.csv`,
      columns: [
        'unit_number',
        'found_on',
        'odometer_km',
        'finding',
        'value',
        'note',
        'bank',
        'soak_h',
        'engine_rpm',
        'oil_temperature_c',
        'recorded_on',
      ],
      rows: findings,
    });
  const codes = [...new Set(entry.codes.map((code) => readCode(code) ?? code))];
  if (codes.length > 0)
    tables.push({
      name: `codes_${stem}.csv`,
      columns: ['unit_number', 'seen_on', 'code', 'recorded_on'],
      rows: codes.map((code) => [unitNumber, foundOn, code, today]),
    });
  return tables;
}

/**
 * Keeps what a technician found with the unit, by the ordinary intake as a batch of its own in the technician's name.
 * A row that the intake would hold comes back as a question instead, and nothing is kept.
 */
export async function keepFindings(
  context: Context,
  store: Store,
  unitNumber: string,
  entry: DeskEntry,
): Promise<KeepResult> {
  const view = await unitViewOf(context, store, unitNumber);
  if (view === null) return { noUnit: true };
  const { coefficients } = fleetModels(context.coefficients);
  const unit = symptomUnit(view, coefficients);
  const questions = entryQuestions(entry, unit, coefficients);
  if (questions.length > 0) return { questions };
  const foundOn = entry.foundOn ?? unit.asOf;
  const tables = tablesOf(entry, unit.unitNumber, foundOn, unit.asOf);
  const written = await writeEntryFiles(context.paths.uploads, tables);
  // what is entered adds to what was entered before, never replaces it
  const options = { by: entry.technician, today: unit.asOf, corrected: 'add' as const };
  try {
    const trial = await takeIn(store.file, written.files, { ...options, dryRun: true });
    const refusals = [
      ...(trial.refused ?? []).map(({ code, message }) => ({ field: 'findings', code, message })),
      ...trial.questions.map(({ code, question }) => ({ field: 'findings', code, message: question })),
      ...trial.reasons.map(({ code, message }) => ({ field: 'findings', code, message: message ?? code })),
    ];
    if (refusals.length > 0) return { questions: refusals };
    const report = await takeIn(store.file, written.files, { ...options, dryRun: false });
    if (report.batch === null) throw new Error('an entry that passed its trial must be taken in');
    return {
      batch: report.batch,
      kept: keptRecords(store, Number(report.batch)),
      messages: messagesOf(report, view.history.findings, foundOn),
    };
  } finally {
    await written.remove();
  }
}

function keptRecords(store: Store, batch: number): KeptRecord[] {
  return [
    ...recordsOfBatch<Finding>(store, 'findings', batch).map(({ id, record }): KeptRecord => ({
      kind: 'findings',
      id,
      text: findingWords(record.finding, record.value),
    })),
    ...recordsOfBatch<Code>(store, 'codes', batch).map(({ id, record }): KeptRecord => ({
      kind: 'codes',
      id,
      text: `code ${record.code}`,
    })),
  ];
}

function messagesOf(
  report: Awaited<ReturnType<typeof takeIn>>,
  before: readonly Finding[],
  foundOn: string,
): string[] {
  const messages: string[] = [];
  const again = report.files.reduce((sum, file) => sum + file.duplicates, 0);
  if (again > 0)
    messages.push(
      `${again === 1 ? 'One row was' : `${again} rows were`} on record already and ${again === 1 ? 'was' : 'were'} not kept twice.`,
    );
  const cleared = before.find(({ finding, foundOn: on }) => finding === 'cleared' && on === foundOn);
  if (cleared !== undefined)
    messages.push(
      `${cleared.value ?? 'Someone'} cleared this unit on the same day (${foundOn}): a sign of that day does not raise a stop again. If it came after the clearing, take the batch of the clearing back.`,
    );
  return messages;
}
