import type { ComponentChildren } from 'preact';
import type { IntakeFileReport, IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { ColumnTable } from './columnTable.tsx';
import { CorrectionTable } from './correctionTable.tsx';

/** What a person says of a column. */
export interface ToldColumn {
  readonly field: string | null;
  readonly unit?: string;
}

/** Answers to what the files left open, as options of the intake. */
export interface IntakeAnswers {
  readonly kind?: string;
  readonly measures?: string;
  readonly dateOrder?: string;
  readonly corrected?: string;
  /** by file, by header: what a column means, where it was understood otherwise */
  readonly corrections?: Readonly<Record<string, Readonly<Record<string, ToldColumn>>>>;
  /** by file: the name under which its corrections are kept */
  readonly keepAs?: Readonly<Record<string, string>>;
}

interface PreviewProps {
  readonly report: IntakeReport;
  readonly answers: IntakeAnswers;
  readonly onAnswer: (answers: IntakeAnswers) => void;
  /** names change nothing that is shown */
  readonly onName: (answers: IntakeAnswers) => void;
  readonly onConfirm: () => void;
  readonly onLeave: () => void;
}

/** The option that a question's `answerWith` names: `--date-order dmy` → dateOrder. */
function optionOf(question: IntakeQuestion): 'kind' | 'measures' | 'dateOrder' | 'corrected' | null {
  if (question.answerWith.includes('--date-order')) return 'dateOrder';
  if (question.answerWith.includes('--measures')) return 'measures';
  if (question.answerWith.includes('--kind')) return 'kind';
  if (question.answerWith.includes('--corrected')) return 'corrected';
  return null;
}

/** The answers with one more: a unit of measure belongs to its column, all else to the intake. */
function answered(
  report: IntakeReport,
  question: IntakeQuestion,
  answers: IntakeAnswers,
  choice: string,
): IntakeAnswers {
  const { file: name, column } = question;
  const { field } =
    report.files.find(({ file }) => file === name)?.columns?.find(({ header }) => header === column) ?? {};
  if (question.code.endsWith('_unit') && column !== null && field !== undefined)
    return {
      ...answers,
      corrections: {
        ...answers.corrections,
        [name]: { ...answers.corrections?.[name], [column]: { field, unit: choice } },
      },
    };
  const option = optionOf(question);
  return option === null ? answers : { ...answers, [option]: choice };
}

/** What the files said, what was understood, what will be kept; questions first. */
export function IntakePreview({ report, answers, onAnswer, onName, onConfirm, onLeave }: PreviewProps) {
  const accepted = report.files.reduce((sum, file) => sum + file.accepted, 0);
  return (
    <section aria-labelledby="preview-title">
      <h2 id="preview-title">What was understood</h2>
      {report.questions.map((question) => (
        <Question
          key={`${question.file}${question.code}`}
          question={question}
          onChoice={(choice) => onAnswer(answered(report, question, answers, choice))}
        />
      ))}
      {report.files.map((file) => (
        <FileReport key={file.file} file={file}>
          <ColumnTable
            file={file}
            told={answers.corrections?.[file.file] ?? {}}
            name={answers.keepAs?.[file.file] ?? ''}
            onTell={(header, field) =>
              onAnswer({
                ...answers,
                corrections: {
                  ...answers.corrections,
                  [file.file]: { ...answers.corrections?.[file.file], [header]: { field } },
                },
              })
            }
            onName={(name) => onName({ ...answers, keepAs: { ...answers.keepAs, [file.file]: name } })}
          />
        </FileReport>
      ))}
      {report.reasons.length > 0 && (
        <>
          <h3>Rows that would be held, by reason</h3>
          <ul>
            {report.reasons.map((reason) => (
              <li key={reason.code}>
                {counted(reason.count, 'row')}: {reason.message ?? reason.code}
              </li>
            ))}
          </ul>
        </>
      )}
      <p class="actions">
        <button
          type="button"
          class="main"
          disabled={report.questions.length > 0 || report.files.length === 0}
          onClick={onConfirm}
        >
          Take in {counted(accepted, 'row')}
        </button>{' '}
        <button type="button" onClick={onLeave}>
          Leave it
        </button>
      </p>
      {report.questions.length > 0 && <p>Answer the question above first; nothing is guessed.</p>}
    </section>
  );
}

const choiceWords: Readonly<Record<string, string>> = {
  replace: 'Replace the earlier rows',
  add: 'Take them as further rows',
};

function Question({ question, onChoice }: { question: IntakeQuestion; onChoice: (choice: string) => void }) {
  return (
    <fieldset class="question">
      <legend>{question.file}</legend>
      <p>{question.question}</p>
      {optionOf(question) === null ? (
        <p class="muted">{question.answerWith}</p>
      ) : (
        question.choices.map((choice) => (
          <button type="button" key={choice} onClick={() => onChoice(choice)}>
            {choiceWords[choice] ?? choice}
          </button>
        ))
      )}
    </fieldset>
  );
}

function FileReport({ file, children }: { file: IntakeFileReport; children: ComponentChildren }) {
  const shown = file.sampleRows ?? [];
  const fields = [...new Set(shown.flatMap((row) => Object.keys(row).filter((name) => row[name] !== null)))];
  return (
    <details open class="file-report">
      <summary>
        <strong>{file.file}</strong>: {file.kind}, {counted(file.rowsRead, 'row')} = {file.accepted} to accept
        + {file.duplicates} there already + {file.held} to hold + {file.rejected} left out
      </summary>
      {file.corrects !== undefined && <CorrectionTable file={file.file} corrects={file.corrects} />}
      <div class="columns">
        {children}
        {shown.length > 0 && (
          <div class="table-frame" tabIndex={0} role="region" aria-label={`First rows of ${file.file}`}>
            <table class="stacking">
              <caption>What will be kept of the first rows</caption>
              <ColumnHeads titles={fields} />
              <tbody>
                {shown.map((row, index) => (
                  <tr key={index}>
                    {fields.map((name) => (
                      <td key={name} data-name={name}>
                        {row[name] === null || row[name] === undefined ? '' : String(row[name])}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
      </div>
    </details>
  );
}
