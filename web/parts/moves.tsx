import { useState } from 'preact/hooks';
import type { Move } from '../../models/schema/endpoints.ts';
import type { RecordLink } from '../../models/schema/story.ts';
import { date } from '../format/dates.ts';
import { callWords, limitName } from '../format/words.ts';
import { useFleetState } from './fleetState.tsx';
import { ReadFault } from './readFault.tsx';
import { RecordDetail } from './recordDetail.tsx';
import { useRead } from './useRead.ts';

const firstLines = 6;

function changeWords(move: Move): string {
  const call = (name: Move['from']): string => (name === null ? 'not in the fleet' : callWords[name]);
  return move.from !== move.to
    ? `from ${call(move.from)} to ${call(move.to)}`
    : `now governed by ${limitName(move.toLimit)}, before by ${limitName(move.fromLimit)}`;
}

/** Units whose call or governing limit changed over the last week, with the records that moved them. */
export function Moves() {
  const state = useFleetState();
  const { data, error, again } = useRead<'moves'>('/api/moves', { days: 7 }, state.data?.revision);
  const [all, setAll] = useState(false);
  const [open, setOpen] = useState<RecordLink | null>(null);
  const shown = all ? (data?.moves ?? []) : (data?.moves ?? []).slice(0, firstLines);
  return (
    <section aria-labelledby="moves-title" class="moves">
      <h2 id="moves-title">What moved since {data === null ? 'last week' : date(data.since)}</h2>
      {data === null && error === null && <p class="muted">Comparing with last week …</p>}
      {error !== null && data === null && <ReadFault error={error} again={again} />}
      {data !== null && data.moves.length === 0 && <p>No unit's call or governing limit changed.</p>}
      {shown.length > 0 && (
        <ul>
          {shown.map((move) => (
            <li key={move.unitNumber}>
              <a href={`/units/${encodeURIComponent(move.unitNumber)}`}>{move.unitNumber}</a>{' '}
              {changeWords(move)}{' '}
              {move.because.length === 0 ? (
                <span class="muted">by time and use alone</span>
              ) : (
                <>
                  after{' '}
                  {move.because.map((link, index) => (
                    <span key={`${link.kind}${link.id}`}>
                      {index > 0 && '; '}
                      <button
                        type="button"
                        class="link"
                        title={`${link.file}, line ${link.line}`}
                        onClick={() => setOpen(link)}
                      >
                        {link.text}
                      </button>
                    </span>
                  ))}
                </>
              )}
            </li>
          ))}
        </ul>
      )}
      {open !== null && <RecordDetail link={open} onClose={() => setOpen(null)} />}
      {data !== null && data.moves.length > shown.length && (
        <button type="button" onClick={() => setAll(true)}>
          Show the other {data.moves.length - shown.length} that moved
        </button>
      )}
    </section>
  );
}
