import { useState } from 'preact/hooks';
import { entryQuestions } from '../../models/assessment/symptomCheck.ts';
import { entryOfForm, type SymptomForm } from '../../models/assessment/symptomForm.ts';
import type { Coefficients } from '../../models/schema/coefficient.ts';
import type { DeskEntry, DeskQuestion, DeskUnit } from '../../models/schema/deskEndpoints.ts';
import { RequestError, write, type Answer } from '../api.ts';
import { modelWords } from '../format/modelWords.ts';
import { typedSigns } from '../format/typedMeasures.ts';
import { AddPhoto } from './deskPhotos.tsx';
import { useSettings } from './fleetState.tsx';
import { newEntry } from './keptEntry.ts';
import { Notice } from './notice.tsx';
import { failureWords, sendEntry } from './sendEntry.ts';

type Kept = Answer<'keepFindings'>;

interface DeskKeepProps {
  readonly unit: DeskUnit;
  readonly coefficients: Coefficients;
  readonly form: SymptomForm;
  readonly change: (part: Partial<SymptomForm>) => void;
  /** the name under which what is typed is kept on this device */
  readonly draft: string;
  /** what was typed has reached the store; nothing of it when it was taken back */
  readonly onStore: (sent: Partial<SymptomForm>) => void;
}

/** Keeps the entry with the unit in a name; questions first, and nothing is lost when the connection drops. */
export function DeskKeep({ unit, coefficients, form, change, draft, onStore }: DeskKeepProps) {
  const [questions, setQuestions] = useState<readonly DeskQuestion[]>([]);
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault' | 'hint'; words: string } | null>(null);
  const [kept, setKept] = useState<Kept | null>(null);
  const [photos, setPhotos] = useState(0);
  const [busy, setBusy] = useState(false);
  const path = `/api/units/${encodeURIComponent(unit.unitNumber)}/findings`;
  const keep = async (entry: DeskEntry, typed: Partial<SymptomForm>): Promise<void> => {
    const open = entryQuestions(entry, unit, coefficients);
    setQuestions(open);
    setOutcome(null);
    if (open.length > 0) return;
    setBusy(true);
    const made = newEntry(`Findings for unit ${unit.unitNumber}`, path, entry, { name: draft, typed });
    try {
      const answer = await sendEntry<'keepFindings'>(made);
      setKept(answer);
      setPhotos(0);
      setOutcome({
        kind: 'done',
        words: [
          `Kept with unit ${unit.unitNumber} as batch ${answer.batch}: ${answer.kept.map(({ text }) => text).join(', ')}.`,
          ...answer.messages,
        ].join(' '),
      });
      onStore(typed);
    } catch (reason) {
      setOutcome({ kind: 'fault', words: failureWords(reason, made, 'The entry') });
    } finally {
      setBusy(false);
    }
  };
  const takeBack = async (batch: string): Promise<void> => {
    try {
      await write<'undo'>(`/api/intake/batches/${batch}/undo`, {});
      setKept(null);
      setOutcome({ kind: 'done', words: `Batch ${batch} is taken back.` });
      onStore({});
    } catch (reason) {
      setOutcome({ kind: 'fault', words: reason instanceof RequestError ? reason.message : String(reason) });
    }
  };
  const signs = entryOfForm(typedSigns(form, useSettings().measures));
  // the day that is shown also where the entry waits over midnight
  const entry: DeskEntry = { ...signs, foundOn: signs.foundOn ?? unit.asOf };
  const firstFinding = kept?.kept.find(({ kind }) => kind === 'findings');
  return (
    <section aria-labelledby="desk-keep" class="no-print">
      <h2 id="desk-keep">Keep with unit {unit.unitNumber}</h2>
      <form
        class="desk-keep"
        onSubmit={(event) => {
          event.preventDefault();
          void keep({ ...entry, cleared: null }, { ...form, technician: '' });
        }}
      >
        <label class="desk-number">
          <span>Your name</span>
          <input
            type="text"
            autoComplete="name"
            maxLength={100}
            value={form.technician}
            onInput={(event) => change({ technician: event.currentTarget.value })}
          />
        </label>
        <label class="desk-number">
          <span>Found on</span>
          <input
            type="date"
            max={unit.asOf}
            value={form.foundOn === '' ? unit.asOf : form.foundOn}
            onInput={(event) => change({ foundOn: event.currentTarget.value })}
          />
        </label>
        <label class="desk-number">
          <span>Note</span>
          <input
            type="text"
            maxLength={400}
            value={form.note}
            onInput={(event) => change({ note: event.currentTarget.value })}
          />
        </label>
        <Questions questions={questions} form={form} change={change} />
        <button type="submit" class="main" disabled={busy}>
          {busy ? 'Keeping …' : 'Keep with the unit'}
        </button>
      </form>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
      {kept !== null && (
        <div class="desk-after">
          {firstFinding !== undefined && (
            <AddPhoto
              finding={firstFinding.id}
              by={form.technician.trim()}
              what={firstFinding.text}
              onAdded={() => setPhotos((count) => count + 1)}
            />
          )}
          {photos > 0 && (
            <Notice kind="done" words={`${photos} ${photos === 1 ? 'photo' : 'photos'} attached.`} />
          )}
          <button type="button" onClick={() => void takeBack(kept.batch)}>
            Take batch {kept.batch} back
          </button>
          <a href={`/units/${encodeURIComponent(unit.unitNumber)}`}>To unit {unit.unitNumber}</a>
        </div>
      )}
      {unit.stops.length > 0 && (
        <details class="desk-clear">
          <summary>End the stop of unit {unit.unitNumber}</summary>
          <p>Only after a check, and only in the name of the person who made it. What stands:</p>
          <ul>
            {unit.stops.map((words) => (
              <li key={words}>{modelWords(words)}</li>
            ))}
          </ul>
          <label class="desk-number">
            <span>What was checked, and what it showed</span>
            <input
              type="text"
              maxLength={500}
              value={form.cleared}
              onInput={(event) => change({ cleared: event.currentTarget.value })}
            />
          </label>
          <button
            type="button"
            disabled={busy}
            onClick={() =>
              void keep(
                { ...entry, codes: [], findings: [], note: null, cleared: form.cleared },
                { cleared: form.cleared },
              )
            }
          >
            Clear in the name of {form.technician.trim() === '' ? '…' : form.technician.trim()}
          </button>
        </details>
      )}
    </section>
  );
}

interface QuestionsProps {
  readonly questions: readonly DeskQuestion[];
  readonly form: SymptomForm;
  readonly change: (part: Partial<SymptomForm>) => void;
}

/** Where a finding stands in the form. */
const fieldOf: Readonly<Record<string, 'screen' | 'phase' | 'rattle' | 'pressure' | 'levelLiters'>> = {
  screen_blocked_share: 'screen',
  phase_deviation_crank_deg: 'phase',
  start_rattle_s: 'rattle',
  hot_idle_pressure_kpa: 'pressure',
  oil_level_low_l: 'levelLiters',
};

/** Questions with the answers that settle them. */
export function Questions({ questions, form, change }: QuestionsProps) {
  return (
    <>
      {questions.map(({ field, code, message }) => {
        const place = fieldOf[field];
        const confirms = code === 'phase_geometry' || code === 'before_renewal' ? code : null;
        return (
          <div class="notice notice-fault" role="alert" key={`${field}${code}${message}`}>
            <p>
              <strong>Question.</strong> {message}
            </p>
            {code === 'share_or_percent' && (
              <button type="button" onClick={() => change({ screen: `${form.screen.trim()} %` })}>
                It is {form.screen.trim()} per cent
              </button>
            )}
            {confirms !== null && !form.confirmed.includes(confirms) && (
              <button type="button" onClick={() => change({ confirmed: [...form.confirmed, confirms] })}>
                Yes, keep it so
              </button>
            )}
            {place !== undefined && (
              <button type="button" onClick={() => change({ [place]: '' })}>
                Leave it out
              </button>
            )}
          </div>
        );
      })}
    </>
  );
}
