import type { Column } from '../schema/columns.ts';
import { kindTable, type RecordKind } from '../schema/kinds.ts';
import {
  currencyQuestion,
  dateQuestion,
  kindQuestion,
  markQuestion,
  missingQuestion,
  tieQuestion,
  unitQuestion,
} from './askQuestions.ts';
import { assignColumns, type Assignment } from './assignColumns.ts';
import {
  dateOrderOf,
  decimalMarkOf,
  markOfFile,
  settleDates,
  type DateDecision,
  type MarkDecision,
} from './decideReading.ts';
import { gatherEvidence, type ColumnEvidence } from './evidence.ts';
import { guessKind, missingEssentials } from './guessKind.ts';
import type { DecimalMark } from './numberText.ts';
import type { Question, Recognised, RecognisedColumn, RecogniseOptions } from './recognised.ts';
import type { Vocabulary } from './synonyms.ts';
import { storedUnit, unitFor, usualUnit } from './unitWords.ts';

interface Table {
  readonly headers: readonly string[];
  readonly evidence: readonly ColumnEvidence[];
}

interface UnitDecision {
  readonly unit: string | null;
  readonly from: RecognisedColumn['unitFrom'];
  readonly question: Question | null;
}

/** True when nearly every number of a column carries a unit that fits. */
function cellsNameUnits(evidence: ColumnEvidence | undefined, column: Column): boolean {
  if (evidence === undefined || column.unit === null || evidence.numbers === 0) return false;
  let named = 0;
  for (const [text, count] of evidence.units) if (unitFor(text, column.unit) !== null) named += count;
  return named >= evidence.numbers;
}

function decideUnit(
  header: string,
  column: Column,
  said: string | null,
  told: string | null,
  evidence: ColumnEvidence | undefined,
  options: RecogniseOptions,
): UnitDecision {
  if (column.type !== 'number' || column.unit === null || column.unit === 'count')
    return { unit: null, from: null, question: null };
  if (told !== null)
    return { unit: unitFor(told, column.unit)?.name ?? told, from: 'answer', question: null };
  if (said !== null) return { unit: said, from: 'name', question: null };
  if (cellsNameUnits(evidence, column)) return { unit: null, from: 'cells', question: null };
  if (options.measures !== undefined) {
    const usual = usualUnit(column.unit, column.field, options.measures);
    return { unit: usual?.name ?? null, from: 'measures', question: null };
  }
  const question = evidence?.filled === 0 ? null : unitQuestion(header, column, evidence);
  return { unit: storedUnit(column.unit)?.name ?? null, from: question === null ? 'only' : null, question };
}

function marksOf(table: Table, assignment: Assignment, columns: ReadonlyMap<string, Column>): MarkDecision[] {
  const raw = assignment.matches.map((match, at): MarkDecision => {
    const column = match === null ? undefined : columns.get(match.field);
    const evidence = table.evidence[at];
    if (
      column === undefined ||
      evidence === undefined ||
      (column.type !== 'number' && column.type !== 'money')
    )
      return null;
    return decimalMarkOf(evidence, column);
  });
  const proven = raw.map((mark, at) => {
    const evidence = table.evidence[at];
    return evidence !== undefined && evidence.point + evidence.comma > 0 ? mark : null;
  });
  const file = markOfFile(proven);
  return raw.map((mark, at) => {
    if (mark === 'open') return file ?? 'open';
    // A meter's habit loses against a proof elsewhere in the file.
    if ((mark === '.' || mark === ',') && proven[at] === null && file !== null && file !== mark)
      return 'open';
    return mark;
  });
}

function datesOf(
  table: Table,
  assignment: Assignment,
  columns: ReadonlyMap<string, Column>,
  kind: RecordKind,
): DateDecision[] {
  return settleDates(
    assignment.matches.map((match, at): DateDecision => {
      const column = match === null ? undefined : columns.get(match.field);
      const evidence = table.evidence[at];
      const isDate =
        column?.type === 'date' ||
        (kind === 'blackouts' && (match?.field === 'from' || match?.field === 'to'));
      return isDate && evidence !== undefined ? dateOrderOf(evidence) : null;
    }),
  );
}

const isOrder = (decision: DateDecision | undefined) =>
  decision === 'dmy' || decision === 'mdy' || decision === 'ymd';

function recogniseKind(
  table: Table,
  kind: RecordKind,
  assignment: Assignment,
  vocabulary: Vocabulary,
  options: RecogniseOptions,
): Recognised {
  const columns = vocabulary.columns.get(kind) ?? new Map<string, Column>();
  const constants = options.constants ?? {};
  const questions: Question[] = [];
  const marks = marksOf(table, assignment, columns);
  const dates = datesOf(table, assignment, columns, kind);
  const fileMark: DecimalMark = options.decimal ?? markOfFile(marks) ?? '.';
  const read = table.headers.map((header, at): RecognisedColumn => {
    const match = assignment.matches[at] ?? null;
    const evidence = table.evidence[at];
    const column = match === null ? undefined : columns.get(match.field);
    const answer = options.columns?.[header];
    const examples = evidence?.examples ?? [];
    if (match === null || column === undefined)
      return {
        header,
        field: null,
        unit: null,
        unitFrom: null,
        decimalMark: fileMark,
        dateOrder: null,
        confidence: 0,
        why: 'no usual name of what is read here; kept with the row as it is',
        examples,
      };
    const { field } = match;
    const unit = decideUnit(header, column, match.unit, answer?.unit ?? null, evidence, options);
    if (unit.question !== null) questions.push(unit.question);
    const mark = answer?.decimal ?? options.decimal ?? marks[at] ?? null;
    if (mark === 'open' || mark === 'mixed') questions.push(markQuestion(header, field, evidence));
    const date = answer?.dateOrder ?? options.dateOrder ?? dates[at] ?? null;
    if (date === 'open' || date === 'mixed')
      questions.push(dateQuestion(header, field, evidence, date === 'mixed'));
    if (column.type === 'money' && evidence !== undefined && evidence.currencies.size > 1)
      questions.push(currencyQuestion(header, field, evidence));
    return {
      header,
      field,
      unit: unit.unit,
      unitFrom: unit.from,
      decimalMark: mark === '.' || mark === ',' ? mark : fileMark,
      dateOrder: date === 'open' || date === 'mixed' ? null : date,
      confidence: match.confidence,
      why: match.why,
      examples,
    };
  });
  const free = table.headers.filter((_, at) => (assignment.matches[at] ?? null) === null);
  for (const group of missingEssentials(assignment, constants)) {
    // what only helps to tell the kind may be missing once the kind is settled; a reading without a meter says nothing
    if (group.length > 1 && kind !== 'readings' && kind !== 'samples') continue;
    questions.push(
      missingQuestion(
        group.flatMap((field) => columns.get(field) ?? []),
        free,
      ),
    );
  }
  for (const { field, columns: at } of assignment.ties) {
    const column = columns.get(field);
    if (column !== undefined)
      questions.push(
        tieQuestion(
          column,
          at.map((index) => table.headers[index] ?? ''),
        ),
      );
  }
  const order = options.dateOrder ?? read.find(({ dateOrder }) => isOrder(dateOrder))?.dateOrder ?? null;
  return {
    kind,
    columns: read,
    constants,
    dateOrder: order,
    decimalMark: fileMark,
    measures: options.measures ?? null,
    questions,
    unknownColumns: free,
  };
}

/**
 * Says what a table holds: its kind, the field and unit of measure of each column, decimal mark and order of dates.
 * What two readings fit becomes a question, never a guess.
 * @param headers names of the columns, as in the file
 * @param evidence what the cells look like, from {@link gatherEvidence} fed with some or all rows
 * @param fileStem the file's name without folder and ending; the name of a kind settles the kind
 * @param vocabulary the catalog of names, see vocabularyOf
 * @param options what the caller knows: kind, measures, date order, decimal mark, a saved column map
 */
export function recogniseTable(
  headers: readonly string[],
  evidence: readonly ColumnEvidence[],
  fileStem: string,
  vocabulary: Vocabulary,
  options: RecogniseOptions = {},
): Recognised {
  const table: Table = { headers, evidence };
  const answers = options.columns ?? {};
  if (options.kind !== undefined)
    return recogniseKind(
      table,
      options.kind,
      assignColumns(table, options.kind, vocabulary, answers),
      vocabulary,
      options,
    );
  const guess = guessKind(table, fileStem, vocabulary, answers, options.constants ?? {});
  const likely = guess.kind ?? guess.choices[0];
  const assignment = likely === undefined ? undefined : guess.assignments.get(likely);
  if (likely === undefined || assignment === undefined)
    throw new Error(`recogniseTable: a kind is needed, got none of ${Object.keys(kindTable).join(', ')}`);
  const result = recogniseKind(table, likely, assignment, vocabulary, options);
  if (guess.kind !== null) return result;
  return { ...result, kind: null, questions: [kindQuestion(guess.choices)] };
}

/** {@link recogniseTable} from a sample of rows. */
export function recognise(
  headers: readonly string[],
  sampleRows: readonly (readonly string[])[],
  fileStem: string,
  vocabulary: Vocabulary,
  options: RecogniseOptions = {},
): Recognised {
  const gatherer = gatherEvidence(headers.length);
  gatherer.observe(sampleRows);
  return recogniseTable(headers, gatherer.columns, fileStem, vocabulary, options);
}
