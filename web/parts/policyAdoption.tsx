import { useState } from 'preact/hooks';
import type { DutyPolicyShown } from '../../models/schema/policyDocument.ts';
import { RequestError, write } from '../api.ts';
import { date } from '../format/dates.ts';
import { distance, intervalToSet, kmPerMile } from '../format/measures.ts';
import { dutyGroup } from '../format/words.ts';
import { useFleetState, useSettings } from './fleetState.tsx';
import { Notice } from './notice.tsx';
import { PolicyTrial } from './policyTrial.tsx';

/** Adopts a drain interval for a duty group in the name of a person, or withdraws the one that stands. */
export function PolicyAdoption({ policy }: { readonly policy: DutyPolicyShown }) {
  const { measures } = useSettings();
  const state = useFleetState();
  const perUnit = measures === 'us' ? kmPerMile : 1;
  const [interval, setInterval] = useState(String(intervalToSet(policy.recommendedIntervalKm, measures)));
  const [name, setName] = useState('');
  const [note, setNote] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const [sending, setSending] = useState(false);
  const [triedKm, setTriedKm] = useState<number | null>(null);
  const { adopted, duty } = policy;
  const group = dutyGroup(duty);
  const path = '/api/policy/adoptions';
  const send = async (): Promise<void> => {
    setSending(true);
    setFailed(null);
    try {
      await (adopted === null
        ? write<'adoptPolicy'>(path, {
            duty,
            intervalKm: Math.round(Number(interval) * perUnit),
            approvedBy: name,
            note,
          })
        : write<'withdrawPolicy'>(`${path}/withdrawal`, { duty, withdrawnBy: name }));
      state.again();
    } catch (reason) {
      setFailed(reason instanceof RequestError ? reason.message : String(reason));
    } finally {
      setSending(false);
    }
  };
  return (
    <div class="money-adopt">
      {failed !== null && <Notice kind="fault" words={failed} />}
      <p>
        {adopted === null
          ? `No interval is adopted for ${group}. An adopted one caps the interval of its units, and their due dates follow; a unit with an approved longer interval of its own keeps that.`
          : `${distance(adopted.intervalKm, measures)} adopted by ${adopted.adoptedBy} on ${date(adopted.adoptedOn)}${adopted.note === null ? '' : `: ${adopted.note}`}. It caps the interval of every unit of ${group} without an approved longer interval of its own.`}
      </p>
      <form
        class="trial no-print"
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
      >
        {adopted === null && (
          <label>
            Interval in {measures === 'us' ? 'mi' : 'km'}
            <input
              type="number"
              required
              min={Math.ceil(500 / perUnit)}
              step={1}
              value={interval}
              onInput={(event) => setInterval(event.currentTarget.value)}
            />
          </label>
        )}
        <label>
          Name of the person who answers for it
          <input
            required
            minLength={2}
            value={name}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        {adopted === null && (
          <label>
            Note
            <input maxLength={500} value={note} onInput={(event) => setNote(event.currentTarget.value)} />
          </label>
        )}
        {adopted === null && (
          <button
            type="button"
            disabled={!(Number(interval) > 0)}
            onClick={() => setTriedKm(Math.round(Number(interval) * perUnit))}
          >
            Try it first
          </button>
        )}
        <button type="submit" disabled={sending}>
          {adopted === null ? `Adopt for ${group}` : `Withdraw for ${group}`}
        </button>
      </form>
      {adopted === null && triedKm !== null && <PolicyTrial duty={duty} intervalKm={triedKm} />}
    </div>
  );
}
