import { useState } from 'preact/hooks';
import type { Visit } from '../../models/schema/visit.ts';
import { modelWords } from '../format/modelWords.ts';
import { useRead } from './useRead.ts';

interface PutOffProps {
  readonly visit: Visit;
  readonly managerNeeded: boolean;
  readonly send: (body: {
    reason: string;
    approver: string;
    manager: string | null;
    newDate: string;
  }) => void;
}

/** Putting a visit off: why, who approved, until when, and what that adds; the third time the manager says so. */
export function PutOffForm({ visit, managerNeeded, send }: PutOffProps) {
  const [reason, setReason] = useState('');
  const [approver, setApprover] = useState('');
  const [manager, setManager] = useState('');
  const [newDate, setNewDate] = useState('');
  const risk = useRead<'putOffRisk'>(newDate === '' ? null : `/api/visits/${visit.id}/risk`, { to: newDate });
  const field = (label: string, value: string, set: (text: string) => void) => (
    <label>
      {label}
      <input value={value} onInput={(event) => set(event.currentTarget.value)} />
    </label>
  );
  return (
    <form
      class="filters"
      aria-label={`Put off ${visit.unitNumber}`}
      onSubmit={(event) => {
        event.preventDefault();
        send({ reason, approver, manager: managerNeeded ? manager : null, newDate });
      }}
    >
      <label>
        New day
        <input type="date" value={newDate} onInput={(event) => setNewDate(event.currentTarget.value)} />
      </label>
      {field('Reason', reason, setReason)}
      {field('Approved by', approver, setApprover)}
      {managerNeeded && field('Manager (third time)', manager, setManager)}
      {risk.data !== null && <p>{modelWords(risk.data.words)}</p>}
      {risk.error !== null && <p role="alert">{risk.error.message}</p>}
      <button type="submit">Put it off</button>
    </form>
  );
}
