import { useEffect, useState } from 'preact/hooks';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { RequestError } from '../api.ts';
import { BatchList } from '../parts/batchList.tsx';
import { ColumnMaps } from '../parts/columnMaps.tsx';
import { FileDrop } from '../parts/fileDrop.tsx';
import { useFleetState } from '../parts/fleetState.tsx';
import { HeldDesk } from '../parts/heldDesk.tsx';
import type { IntakeAnswers } from '../parts/intakeAnswers.ts';
import { IntakePreview } from '../parts/intakePreview.tsx';
import { useIntakeWork } from '../parts/intakeWork.ts';
import { Notice } from '../parts/notice.tsx';
import { PageTerms } from '../parts/term.tsx';
import { CalledOff, type SentFile } from '../parts/sendFile.ts';
import { TemplateLinks } from '../parts/templateLinks.tsx';
import { UploadProfile } from '../parts/uploadProfile.tsx';
import { WorkBar } from '../parts/workBar.tsx';
import { WorkTexts } from '../parts/workTexts.tsx';
import '../styles/intake.css';

type Step = { at: 'choose' } | { at: 'preview'; report: IntakeReport } | { at: 'done'; report: IntakeReport };

const sentence = (reason: unknown): string =>
  reason instanceof RequestError ? reason.message : String(reason);

/** Names that were typed; an empty one keeps nothing. */
const namesOf = ({ keepAs = {} }: IntakeAnswers): Record<string, string> =>
  Object.fromEntries(Object.entries(keepAs).filter(([, name]) => name.trim() !== ''));

const requestOf = (files: readonly SentFile[], answers: IntakeAnswers, dryRun: boolean) => ({
  uploads: files.map((file) => file.upload),
  ...answers,
  keepAs: namesOf(answers),
  dryRun,
});

/** From files to records: choose, see what was understood, confirm; then what came in before and what waits. */
export function Intake() {
  const state = useFleetState();
  const [files, setFiles] = useState<readonly SentFile[]>([]);
  const [step, setStep] = useState<Step>({ at: 'choose' });
  const [answers, setAnswers] = useState<IntakeAnswers>({});
  const [fault, setFault] = useState<{ words: string; unread: readonly string[] } | null>(null);
  const work = useIntakeWork();
  useEffect(() => {
    document.title = 'Intake · Sumpwise';
  }, []);

  const fail = (reason: unknown): void => {
    setStep({ at: 'choose' });
    setFault(
      reason instanceof CalledOff
        ? { words: 'Called off. Nothing was changed.', unread: [] }
        : {
            words: sentence(reason),
            unread: reason instanceof RequestError ? reason.refused.map(({ file }) => file) : [],
          },
    );
  };
  const look = async (chosen: readonly SentFile[], given: IntakeAnswers): Promise<void> => {
    setFault(null);
    const report = await work.take(
      'Reading the files; nothing is kept yet …',
      requestOf(chosen, given, true),
    );
    setStep({ at: 'preview', report });
  };
  const choose = async (list: readonly File[]): Promise<void> => {
    setFault(null);
    const kept = [...files, ...(await work.send(list))];
    setFiles(kept);
    await look(kept, answers);
  };
  const without = (names: readonly string[]): void => {
    const left = files.filter(
      ({ name }) => !names.some((each) => each === name || each.startsWith(`${name}#`)),
    );
    setFiles(left);
    if (left.length === 0) begin();
    else void look(left, answers).catch(fail);
  };
  const begin = (): void => {
    setFiles([]);
    setAnswers({});
    setFault(null);
    setStep({ at: 'choose' });
  };
  const confirm = async (): Promise<void> => {
    const report = await work.take('Taking the records in …', requestOf(files, answers, false));
    setStep({ at: 'done', report });
    setFiles([]);
    setAnswers({});
    state.again();
  };
  return (
    <main id="page">
      <h1>Intake</h1>
      <p>
        Units, engines, sites, service history, meter readings, fuel, samples, findings and codes, as CSV, TSV
        or XLSX. Any number of files in any order; nothing is kept until you confirm, and every row is
        accounted for.
      </p>
      {fault !== null && (
        <>
          <Notice kind="fault" words={fault.words} />
          {files.length > 0 && (
            <p class="actions">
              {fault.unread.length > 0 && fault.unread.length < files.length && (
                <button type="button" onClick={() => without(fault.unread)}>
                  Go on without {fault.unread.join(', ')}
                </button>
              )}{' '}
              <button type="button" onClick={begin}>
                Start again with other files
              </button>
            </p>
          )}
        </>
      )}
      {work.at !== null && <WorkBar at={work.at} onCancel={work.cancel} />}
      {work.at === null && (step.at === 'choose' || step.at === 'done') && (
        <>
          <FileDrop onFiles={(list) => void choose(list).catch(fail)} />
          <TemplateLinks />
        </>
      )}
      {work.at === null && step.at === 'preview' && (
        <>
          <IntakePreview
            report={step.report}
            answers={answers}
            onAnswer={(given) => {
              setAnswers(given);
              void look(files, given).catch(fail);
            }}
            onName={setAnswers}
            onConfirm={() => void confirm().catch(fail)}
            onLeave={begin}
            onLeaveOut={(file) => without([file])}
          />
          {files.map((file) => (
            <UploadProfile key={file.upload} upload={file.upload} name={file.name} />
          ))}
        </>
      )}
      {step.at === 'done' && <Done report={step.report} />}
      <HeldDesk version={state.data?.revision} onDecided={state.again} />
      <WorkTexts version={state.data?.revision} onTaught={state.again} />
      <ColumnMaps version={state.data?.revision} />
      <BatchList
        version={state.data?.revision}
        newest={step.at === 'done' ? step.report.batch : null}
        onUndone={state.again}
      />
      <PageTerms ids={['held_row']} />
    </main>
  );
}

function Done({ report }: { report: IntakeReport }) {
  const sum = (name: 'rowsRead' | 'accepted' | 'duplicates' | 'held' | 'rejected'): number =>
    report.files.reduce((total, file) => total + file[name], 0);
  return (
    <>
      <Notice
        kind="done"
        words={`${sum('rowsRead')} rows read: ${sum('accepted')} accepted, ${sum('duplicates')} were there already, ${sum('held')} held, ${sum('rejected')} left out. ${
          report.triedAgain !== undefined && report.triedAgain.accepted > 0
            ? `${report.triedAgain.accepted} rows held before could be taken in now. `
            : ''
        }This is batch ${report.batch}; it can be taken back below.`}
      />
      <p>
        <a href="/">What needs attention now</a>
      </p>
    </>
  );
}
