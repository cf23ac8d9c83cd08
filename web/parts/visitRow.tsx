import { useState } from 'preact/hooks';
import { jobWords } from '../../models/cards/jobCard.ts';
import { nextStates, putOffsBeforeManager } from '../../models/cards/visitMoves.ts';
import { visitStateWords, type Visit, type VisitState } from '../../models/schema/visit.ts';
import { RequestError, write } from '../api.ts';
import { date } from '../format/dates.ts';
import { PutOffForm } from './putOffForm.tsx';

interface RowProps {
  readonly visit: Visit;
  /** who writes; under two letters nothing can be moved */
  readonly by: string;
  readonly onChanged: (words: string) => void;
}

/** What a button that moves a visit on says. */
const moveWords: Readonly<Record<VisitState, string>> = {
  asked: 'Ask again',
  booked: 'Book',
  arrived: 'Arrived',
  waiting_parts: 'Waits for parts',
  done: 'Done',
  put_off: 'Put off',
  did_not_come: 'Did not come',
};

/** One visit with its next states; what another writer did meanwhile is said and read anew. */
export function VisitRow({ visit, by, onChanged }: RowProps) {
  const [puttingOff, setPuttingOff] = useState(false);
  const [fault, setFault] = useState('');
  // once sent, nothing more can be until the visit has been read again
  const [sentVersion, setSentVersion] = useState<number | null>(null);
  const send = async (path: string, body: object, words: string): Promise<void> => {
    setFault('');
    setSentVersion(visit.version);
    try {
      await write(`/api/visits/${visit.id}/${path}`, { version: visit.version, by, ...body });
      setPuttingOff(false);
      onChanged(`Unit ${visit.unitNumber}: ${words}.`);
    } catch (error) {
      setSentVersion(null);
      setFault(error instanceof RequestError ? error.message : String(error));
      if (error instanceof RequestError && error.code === 'changed_meanwhile') onChanged('');
    }
  };
  const mayMove = by.length >= 2 && sentVersion !== visit.version;
  return (
    <tr>
      <td>{date(visit.on)}</td>
      <td>
        <a class="unit-number" href={`/units/${encodeURIComponent(visit.unitNumber)}`}>
          {visit.unitNumber}
        </a>
      </td>
      <td data-name="where">
        {[visit.site, visit.outsideShop ?? visit.bay, visit.technician]
          .filter((word) => word !== null)
          .join(', ')}
      </td>
      <td data-name="jobs">
        {visit.jobs.map((job) => jobWords[job]).join(', ')}
        {visit.askedBecause !== null && <span class="muted">; {visit.askedBecause}</span>}
      </td>
      <td data-name="stands at">
        {visitStateWords[visit.state]}
        {visit.timesPutOff > 0 &&
          `, put off ${visit.timesPutOff} ${visit.timesPutOff === 1 ? 'time' : 'times'}`}
      </td>
      <td>
        <span class="visit-moves">
          <a href={`/card/${visit.id}`}>Job card</a>
          {nextStates(visit.state).map((to) => (
            <button
              key={to}
              type="button"
              disabled={!mayMove}
              onClick={() =>
                to === 'put_off'
                  ? setPuttingOff(!puttingOff)
                  : void send('state', { to }, visitStateWords[to])
              }
            >
              {moveWords[to]}
            </button>
          ))}
          {visit.version > 1 && (
            <button
              type="button"
              disabled={!mayMove}
              onClick={() => void send('undo', {}, 'the last change is taken back')}
            >
              Undo
            </button>
          )}
        </span>
        {puttingOff && (
          <PutOffForm
            visit={visit}
            managerNeeded={visit.timesPutOff >= putOffsBeforeManager}
            send={(body) => void send('state', { to: 'put_off', ...body }, 'put off')}
          />
        )}
        {fault !== '' && <p role="alert">{fault}</p>}
      </td>
    </tr>
  );
}
