import type { ComponentChildren } from 'preact';
import type { IntakeFileReport, IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import { fieldWords, kindName } from '../format/fieldWords.ts';
import { keptValue } from '../format/keptValue.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { ColumnTable } from './columnTable.tsx';
import { useSettings } from './fleetState.tsx';
import { CorrectionTable } from './correctionTable.tsx';
import { answered, tellColumn, type IntakeAnswers } from './intakeAnswers.ts';

interface PreviewProps {
  readonly report: IntakeReport;
  readonly answers: IntakeAnswers;
  readonly onAnswer: (answers: IntakeAnswers) => void;
  /** names change nothing that is shown */
  readonly onName: (answers: IntakeAnswers) => void;
  readonly onConfirm: () => void;
  readonly onLeave: () => void;
  /** goes on without a file */
  readonly onLeaveOut: (file: string) => void;
}

/** What the files said, what was understood, what will be kept; questions first. */
export function IntakePreview({
  report,
  answers,
  onAnswer,
  onName,
  onConfirm,
  onLeave,
  onLeaveOut,
}: PreviewProps) {
  const open = report.questions.length;
  const accepted = report.files.reduce((sum, file) => sum + file.accepted, 0);
  return (
    <section aria-labelledby="preview-title">
      <h2 id="preview-title">What was understood</h2>
      {report.questions.map((question) => {
        const [first = ''] = question.choices;
        const next = answered(report, question, answers, first);
        return (
          <Question
            key={`${question.file}${question.code}${question.column}`}
            question={question}
            answer={
              next === null
                ? null
                : (choice) => onAnswer(answered(report, question, answers, choice) ?? answers)
            }
            onLeaveOut={() => onLeaveOut(question.file)}
          />
        );
      })}
      {report.files.map((file) => (
        <FileReport key={file.file} file={file} counts={open === 0}>
          <ColumnTable
            file={file}
            told={answers.corrections?.[file.file] ?? {}}
            name={answers.keepAs?.[file.file] ?? ''}
            onTell={(header, field) => onAnswer(tellColumn(answers, file.file, header, { field }))}
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
          disabled={open > 0 || report.files.length === 0}
          onClick={onConfirm}
        >
          {open > 0 ? 'Take in' : `Take in ${counted(accepted, 'row')}`}
        </button>{' '}
        <button type="button" onClick={onLeave}>
          Leave it
        </button>
      </p>
      {open > 0 && (
        <p>Answer the {open === 1 ? 'question' : `${open} questions`} above first; nothing is guessed.</p>
      )}
    </section>
  );
}

const choiceWords: Readonly<Record<string, string>> = {
  replace: 'Replace the earlier rows',
  add: 'Take them as further rows',
  dmy: 'The day first: 31/12/2026',
  mdy: 'The month first: 12/31/2026',
  '.': 'The point: 1234.5',
  ',': 'The comma: 1234,5',
  'leave out': 'Leave the column out',
};

/** What may be chosen; where no kind fits better than another, any kind. */
const choicesOf = ({ code, choices }: IntakeQuestion): readonly string[] =>
  code === 'kind_unclear' ? [...new Set([...choices, ...recordKinds])] : choices;

interface QuestionProps {
  readonly question: IntakeQuestion;
  /** null: only the file itself can be mended */
  readonly answer: ((choice: string) => void) | null;
  readonly onLeaveOut: () => void;
}

function Question({ question, answer, onLeaveOut }: QuestionProps) {
  return (
    <fieldset class="question">
      <legend>{question.file}</legend>
      <p>{question.question}</p>
      {answer !== null &&
        choicesOf(question).map((choice) => (
          <button type="button" key={choice} onClick={() => answer(choice)}>
            {question.code === 'kind_unclear' ? kindName(choice) : (choiceWords[choice] ?? choice)}
          </button>
        ))}
      <button type="button" onClick={onLeaveOut}>
        Leave this file out
      </button>
    </fieldset>
  );
}

interface FileReportProps {
  readonly file: IntakeFileReport;
  /** its rows are counted: no question is open */
  readonly counts: boolean;
  readonly children: ComponentChildren;
}

function FileReport({ file, counts, children }: FileReportProps) {
  const settings = useSettings();
  const shown = file.sampleRows ?? [];
  const fields = [...new Set(shown.flatMap((row) => Object.keys(row).filter((name) => row[name] !== null)))];
  return (
    <details open class="file-report">
      <summary>
        <strong>{file.file}</strong>: {kindName(file.kind)}
        {counts
          ? `, ${counted(file.rowsRead, 'row')} = ${file.accepted} to accept + ${file.duplicates} there already + ${file.held} to hold + ${file.rejected} left out`
          : '; its rows are counted once nothing is open'}
      </summary>
      {file.corrects !== undefined && <CorrectionTable file={file.file} corrects={file.corrects} />}
      <div class="columns">
        {children}
        {shown.length > 0 && (
          <div class="table-frame" tabIndex={0} role="region" aria-label={`First rows of ${file.file}`}>
            <table class="stacking">
              <caption>What will be kept of the first rows</caption>
              <ColumnHeads titles={fields.map((name) => fieldWords(file.kind, name))} />
              <tbody>
                {shown.map((row, index) => (
                  <tr key={index}>
                    {fields.map((name) => {
                      const words = keptValue(file.kind, name, row, settings);
                      return (
                        <td
                          key={name}
                          data-name={fieldWords(file.kind, name)}
                          class={words.length > 24 ? 'long' : 'short'}
                        >
                          {words}
                        </td>
                      );
                    })}
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
