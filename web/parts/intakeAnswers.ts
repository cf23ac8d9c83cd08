import type { IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';

/** What a person says of a column. */
export interface ToldColumn {
  readonly field: string | null;
  readonly unit?: string;
  readonly decimal?: string;
  readonly dateOrder?: string;
}

type OfFile<T> = Readonly<Record<string, T>>;

/** Answers to what the files left open, as options of the intake. */
export interface IntakeAnswers {
  readonly corrected?: string;
  /** by file: the kind of its records */
  readonly kinds?: OfFile<string>;
  /** by file, by header: what a column means, where it was understood otherwise */
  readonly corrections?: OfFile<OfFile<ToldColumn>>;
  /** by file: the name under which its corrections are kept */
  readonly keepAs?: OfFile<string>;
}

/** The answers with what was told of a column. */
export function tellColumn(
  answers: IntakeAnswers,
  file: string,
  header: string,
  told: ToldColumn,
): IntakeAnswers {
  const ofFile = answers.corrections?.[file] ?? {};
  // what was said of another field does not hold for this one
  const before = ofFile[header]?.field === told.field ? ofFile[header] : {};
  return {
    ...answers,
    corrections: { ...answers.corrections, [file]: { ...ofFile, [header]: { ...before, ...told } } },
  };
}

const fieldOf = (report: IntakeReport, file: string, header: string): string | null =>
  report.files.find((each) => each.file === file)?.columns?.find((each) => each.header === header)?.field ??
  null;

/** What an answer says of the column that the question is about; null: the question is about no column. */
function toldBy(question: IntakeQuestion, field: string | null, choice: string): ToldColumn | null {
  if (question.column === null) return null;
  if (question.code.startsWith('date_order')) return { field, dateOrder: choice };
  if (question.code.endsWith('_unit')) return { field, unit: choice };
  if (question.code === 'decimal_mark') return { field, decimal: choice };
  if (question.code === 'currency_mixed') return { field: null };
  return null;
}

/**
 * The answers with one more. An order of days is told of every column that asks for it, kind and unit of measure of their
 * own file and column alone.
 * @returns null where only the file itself can be mended
 */
export function answered(
  report: IntakeReport,
  question: IntakeQuestion,
  answers: IntakeAnswers,
  choice: string,
): IntakeAnswers | null {
  const { file, code } = question;
  if (code === 'kind_unclear') return { ...answers, kinds: { ...answers.kinds, [file]: choice } };
  if (code === 'corrected_file') return { ...answers, corrected: choice };
  if ((code === 'column_missing' || code === 'two_columns_one_field') && question.field !== null)
    return tellColumn(answers, file, choice, { field: question.field });
  const alike = code === 'date_order' ? report.questions.filter((each) => each.code === code) : [question];
  return alike.reduce<IntakeAnswers | null>((before, each) => {
    const told = toldBy(each, fieldOf(report, each.file, each.column ?? ''), choice);
    return before === null || told === null ? null : tellColumn(before, each.file, each.column ?? '', told);
  }, answers);
}
