import { useState } from 'preact/hooks';
import type { CheckGain } from '../../models/assessment/symptomGain.ts';
import type { DeskUnit } from '../../models/schema/deskEndpoints.ts';
import type { ShopJob } from '../../models/schema/shopPlan.ts';
import { RequestError, write } from '../api.ts';
import { Notice } from './notice.tsx';
import { useWriter } from './writerName.tsx';

/** Checks of the desk that are a job of their own; all others are a check. */
const jobOf: Readonly<Record<string, ShopJob>> = { pull_screen: 'screen_look', read_phase: 'phase_reading' };

/** Asks the unit in for the next check; the shop plan finds it a place. */
export function DeskAskIn({ unit, next }: { unit: DeskUnit; next: CheckGain | undefined }) {
  const [by, setBy] = useWriter();
  const [outcome, setOutcome] = useState<{ kind: 'done' | 'fault'; words: string } | null>(null);
  const [busy, setBusy] = useState(false);
  if (next === undefined) return null;
  const ask = (): void => {
    setBusy(true);
    write<'askVisit'>('/api/visits', {
      unitNumber: unit.unitNumber,
      jobs: [jobOf[next.check] ?? 'check'],
      on: unit.asOf,
      reason: next.label,
      by: by.trim(),
    })
      .then(({ visit }) =>
        setOutcome({
          kind: 'done',
          words: `Unit ${visit.unitNumber} is asked in: ${next.label}. The shop plan finds it a place.`,
        }),
      )
      .catch((error: unknown) =>
        setOutcome({ kind: 'fault', words: error instanceof RequestError ? error.message : String(error) }),
      )
      .finally(() => setBusy(false));
  };
  return (
    <section class="no-print" aria-labelledby="desk-ask-in">
      <h2 id="desk-ask-in">Ask it in for the next check</h2>
      <p>{next.label}.</p>
      <label class="desk-number">
        Who asks
        <input value={by} autoComplete="name" onInput={(event) => setBy(event.currentTarget.value)} />
      </label>
      <p>
        <button type="button" disabled={busy || by.trim().length < 2} onClick={ask}>
          Ask unit {unit.unitNumber} in
        </button>
      </p>
      {outcome !== null && <Notice kind={outcome.kind} words={outcome.words} />}
    </section>
  );
}
