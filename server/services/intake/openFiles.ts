import { createHash } from 'node:crypto';
import { hashFile } from '../../files/hashFile.ts';
import { openTable, type SheetTable } from '../../files/readTable.ts';
import { isRefused, TableRefusedError } from '../../files/tableRefusal.ts';
import { gatherEvidence } from '../../../models/intake/evidence.ts';
import type { Question, Recognised, RecogniseOptions } from '../../../models/intake/recognised.ts';
import { recogniseTable } from '../../../models/intake/recognise.ts';
import type { Vocabulary } from '../../../models/intake/synonyms.ts';
import type { IntakeQuestion } from '../../../models/schema/intake.ts';
import { recordKinds } from '../../../models/schema/kinds.ts';

/** A file on disk with the name that people know it by. */
export interface NamedFile {
  readonly name: string;
  readonly path: string;
}

/** One table ready to be taken in. */
export interface ReadyTable {
  readonly file: string;
  readonly sheet: string | null;
  readonly contentHash: string;
  readonly table: SheetTable;
  readonly recognised: Recognised;
  /** name of the kept column map it was read by, or null */
  readonly columnsBy: string | null;
}

export interface OpenedFiles {
  /** in the order in which one may rest on another: engines and units before service */
  readonly tables: readonly ReadyTable[];
  readonly questions: readonly IntakeQuestion[];
  readonly refused: readonly { file: string; code: string; message: string }[];
}

/** What is known of one table's columns before it is read. */
export interface KnownColumns {
  readonly options: Pick<RecogniseOptions, 'kind' | 'columns'>;
  readonly columnsBy: string | null;
}

const sampleRows = 5000;

/** Option of the command line that answers a question. */
const answerOptions: Readonly<Record<Question['answers'], (question: Question) => string>> = {
  kind: () => '--kind KIND',
  dateOrder: (question) => `--date-order ${question.choices.join(' or ')}`,
  measures: () => '--measures metric or us',
  unit: () => '--measures metric or us',
  decimal: () => '--map FILE with the decimal mark',
  columns: () => '--map FILE that names the columns',
  constants: () => '--map FILE with the missing value',
};

async function look(
  table: SheetTable,
  stem: string,
  vocabulary: Vocabulary,
  options: RecogniseOptions,
  limit: number,
): Promise<Recognised> {
  const gatherer = gatherEvidence(table.columns.length);
  let seen = 0;
  for await (const batch of table.rows()) {
    gatherer.observe(batch.filter((row) => row.skip === null && row.fault === null).map((row) => row.cells));
    seen += batch.length;
    if (seen >= limit) break;
  }
  return recogniseTable(table.columns, gatherer.columns, stem, vocabulary, options);
}

/**
 * Opens every file, tells what each table holds, and collects what they leave open. A first part of each table is looked
 * at; the whole of it only when that leaves a question.
 */
export async function openFiles(
  files: readonly NamedFile[],
  vocabulary: Vocabulary,
  options: RecogniseOptions,
  knownColumns: (table: string, headers: readonly string[]) => KnownColumns,
): Promise<OpenedFiles> {
  const tables: ReadyTable[] = [];
  const questions: IntakeQuestion[] = [];
  const refused: { file: string; code: string; message: string }[] = [];
  const names = new Set([...vocabulary.own.values()].flatMap((names) => [...names.keys()]));
  for (const file of files) {
    const opened = await openTable(file.path, {
      knowsHeader: (name) => names.has(name.trim().toLowerCase()),
    });
    if (isRefused(opened)) {
      refused.push({ file: file.name, code: opened.refused, message: opened.message });
      continue;
    }
    const contentHash = await hashFile(file.path);
    const stem = file.name.replace(/\.[^.]*$/, '');
    for (const table of opened.sheets) {
      const name = table.sheet === null ? file.name : `${file.name}#${table.sheet}`;
      const known = knownColumns(name, table.columns);
      const all = { ...options, ...known.options };
      try {
        let recognised = await look(table, table.sheet ?? stem, vocabulary, all, sampleRows);
        if (recognised.questions.length > 0)
          recognised = await look(table, table.sheet ?? stem, vocabulary, all, Number.POSITIVE_INFINITY);
        for (const question of recognised.questions)
          questions.push({
            file: name,
            code: question.code,
            column: question.column,
            field: question.field,
            question: question.question,
            choices: [...question.choices],
            answerWith: answerOptions[question.answers](question),
          });
        tables.push({
          file: file.name,
          sheet: table.sheet,
          contentHash: createHash('sha256')
            .update(contentHash)
            .update(table.sheet ?? '')
            .digest('hex'),
          table,
          recognised,
          columnsBy: known.columnsBy,
        });
      } catch (error) {
        if (!(error instanceof TableRefusedError)) throw error;
        refused.push({ file: name, code: error.refused, message: error.message });
      }
    }
  }
  const place = (ready: ReadyTable): number =>
    ready.recognised.kind === null ? recordKinds.length : recordKinds.indexOf(ready.recognised.kind);
  tables.sort((a, b) => place(a) - place(b));
  return { tables, questions, refused };
}
