import { useEffect, useState } from 'preact/hooks';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { RequestError, upload, write } from '../api.ts';
import { BatchList } from '../parts/batchList.tsx';
import { ColumnMaps } from '../parts/columnMaps.tsx';
import { FileDrop } from '../parts/fileDrop.tsx';
import { useFleetState } from '../parts/fleetState.tsx';
import { HeldDesk } from '../parts/heldDesk.tsx';
import { IntakePreview, type IntakeAnswers } from '../parts/intakePreview.tsx';
import { Notice } from '../parts/notice.tsx';
import { TemplateLinks } from '../parts/templateLinks.tsx';
import { UploadProfile } from '../parts/uploadProfile.tsx';
import { WorkTexts } from '../parts/workTexts.tsx';
import '../styles/intake.css';

interface Chosen {
  readonly upload: string;
  readonly name: string;
  readonly bytes: number;
}

type Step =
  | { at: 'choose' }
  | { at: 'working'; words: string }
  | { at: 'preview'; report: IntakeReport }
  | { at: 'done'; report: IntakeReport };

const sentence = (reason: unknown): string =>
  reason instanceof RequestError ? reason.message : String(reason);

/** Names that were typed; an empty one keeps nothing. */
const namesOf = ({ keepAs = {} }: IntakeAnswers): Record<string, string> =>
  Object.fromEntries(Object.entries(keepAs).filter(([, name]) => name.trim() !== ''));

/** From files to records: choose, see what was understood, confirm; then what came in before and what waits. */
export function Intake() {
  const state = useFleetState();
  const [files, setFiles] = useState<readonly Chosen[]>([]);
  const [step, setStep] = useState<Step>({ at: 'choose' });
  const [answers, setAnswers] = useState<IntakeAnswers>({});
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    document.title = 'Intake · Sumpwise';
  }, []);

  const look = async (chosen: readonly Chosen[], given: IntakeAnswers): Promise<void> => {
    setFault(null);
    setStep({ at: 'working', words: 'Reading the files; nothing is kept yet …' });
    try {
      const report = await write<'intake'>('/api/intake', {
        uploads: chosen.map((file) => file.upload),
        ...given,
        keepAs: namesOf(given),
        dryRun: true,
      });
      setStep({ at: 'preview', report });
    } catch (reason) {
      setFault(sentence(reason));
      setStep({ at: 'choose' });
    }
  };
  const choose = async (list: readonly File[]): Promise<void> => {
    setFault(null);
    const kept: Chosen[] = [...files];
    for (const [index, file] of list.entries()) {
      setStep({ at: 'working', words: `Sending ${file.name} (${index + 1} of ${list.length}) …` });
      try {
        kept.push(await upload(file));
      } catch (reason) {
        setFault(`${file.name}: ${sentence(reason)}`);
        setStep({ at: 'choose' });
        return;
      }
    }
    setFiles(kept);
    await look(kept, answers);
  };
  const begin = (): void => {
    setFiles([]);
    setAnswers({});
    setFault(null);
    setStep({ at: 'choose' });
  };
  const confirm = async (): Promise<void> => {
    setStep({ at: 'working', words: 'Taking the records in …' });
    try {
      const report = await write<'intake'>('/api/intake', {
        uploads: files.map((file) => file.upload),
        ...answers,
        keepAs: namesOf(answers),
        dryRun: false,
      });
      setStep({ at: 'done', report });
      setFiles([]);
      setAnswers({});
      state.again();
    } catch (reason) {
      setFault(sentence(reason));
      setStep({ at: 'choose' });
    }
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
          <Notice kind="fault" words={fault} />
          {files.length > 0 && (
            <p>
              <button type="button" onClick={begin}>
                Start again with other files
              </button>
            </p>
          )}
        </>
      )}
      {step.at === 'working' && (
        <p class="loading" role="status">
          {step.words}
        </p>
      )}
      {(step.at === 'choose' || step.at === 'done') && (
        <>
          <FileDrop onFiles={(list) => void choose(list)} />
          <TemplateLinks />
        </>
      )}
      {step.at === 'preview' && (
        <>
          <IntakePreview
            report={step.report}
            answers={answers}
            onAnswer={(given) => {
              setAnswers(given);
              void look(files, given);
            }}
            onName={setAnswers}
            onConfirm={() => void confirm()}
            onLeave={begin}
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
      <BatchList version={state.data?.revision} onUndone={state.again} />
    </main>
  );
}

function Done({ report }: { report: IntakeReport }) {
  const sum = (name: 'rowsRead' | 'accepted' | 'duplicates' | 'held' | 'rejected'): number =>
    report.files.reduce((total, file) => total + file[name], 0);
  return (
    <Notice
      kind="done"
      words={`${sum('rowsRead')} rows read: ${sum('accepted')} accepted, ${sum('duplicates')} were there already, ${sum('held')} held, ${sum('rejected')} left out. ${
        report.triedAgain !== undefined && report.triedAgain.accepted > 0
          ? `${report.triedAgain.accepted} rows held before could be taken in now. `
          : ''
      }This is batch ${report.batch}; it can be taken back below.`}
    />
  );
}
