import type { IntakeFileReport, IntakeQuestion, IntakeReport } from '../../models/schema/intake.ts';
import { counted } from '../format/words.ts';

/** Answers to what the files left open, as options of the intake. */
export interface IntakeAnswers {
  readonly kind?: string;
  readonly measures?: string;
  readonly dateOrder?: string;
}

interface PreviewProps {
  readonly report: IntakeReport;
  readonly answers: IntakeAnswers;
  readonly onAnswer: (answers: IntakeAnswers) => void;
  readonly onConfirm: () => void;
  readonly onLeave: () => void;
}

/** The option that a question's `answerWith` names: `--date-order dmy` → dateOrder. */
function optionOf(question: IntakeQuestion): keyof IntakeAnswers | null {
  if (question.answerWith.includes('--date-order')) return 'dateOrder';
  if (question.answerWith.includes('--measures')) return 'measures';
  if (question.answerWith.includes('--kind')) return 'kind';
  return null;
}

/** What the files said, what was understood, what will be kept; questions first. */
export function IntakePreview({ report, answers, onAnswer, onConfirm, onLeave }: PreviewProps) {
  const accepted = report.files.reduce((sum, file) => sum + file.accepted, 0);
  return (
    <section aria-labelledby="preview-title">
      <h2 id="preview-title">What was understood</h2>
      {report.questions.map((question) => (
        <Question
          key={`${question.file}${question.code}`}
          question={question}
          answers={answers}
          onAnswer={onAnswer}
        />
      ))}
      {report.files.map((file) => (
        <FileReport key={file.file} file={file} />
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

function Question({
  question,
  answers,
  onAnswer,
}: {
  question: IntakeQuestion;
  answers: IntakeAnswers;
  onAnswer: (answers: IntakeAnswers) => void;
}) {
  const option = optionOf(question);
  return (
    <fieldset class="question">
      <legend>{question.file}</legend>
      <p>{question.question}</p>
      {option === null ? (
        <p class="muted">{question.answerWith}</p>
      ) : (
        question.choices.map((choice) => (
          <button type="button" key={choice} onClick={() => onAnswer({ ...answers, [option]: choice })}>
            {choice}
          </button>
        ))
      )}
    </fieldset>
  );
}

function FileReport({ file }: { file: IntakeFileReport }) {
  const shown = file.sampleRows ?? [];
  const fields = [...new Set(shown.flatMap((row) => Object.keys(row).filter((name) => row[name] !== null)))];
  return (
    <details open class="file-report">
      <summary>
        <strong>{file.file}</strong>: {file.kind}, {counted(file.rowsRead, 'row')} = {file.accepted} to accept
        + {file.duplicates} there already + {file.held} to hold + {file.rejected} left out
      </summary>
      <div class="columns">
        <div class="table-frame" tabIndex={0} role="region" aria-label={`Columns of ${file.file}`}>
          <table>
            <caption>What the file said, and what was understood</caption>
            <thead>
              <tr>
                <th scope="col">column</th>
                <th scope="col">understood as</th>
                <th scope="col">unit</th>
                <th scope="col">why</th>
              </tr>
            </thead>
            <tbody>
              {(file.columns ?? []).map((column) => (
                <tr key={column.header}>
                  <td>{column.header}</td>
                  <td>{column.field ?? 'not known, kept with the row'}</td>
                  <td>{column.unit ?? ''}</td>
                  <td>{column.why}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
        {shown.length > 0 && (
          <div class="table-frame" tabIndex={0} role="region" aria-label={`First rows of ${file.file}`}>
            <table>
              <caption>What will be kept of the first rows</caption>
              <thead>
                <tr>
                  {fields.map((name) => (
                    <th scope="col" key={name}>
                      {name}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {shown.map((row, index) => (
                  <tr key={index}>
                    {fields.map((name) => (
                      <td key={name}>
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
