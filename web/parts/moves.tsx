import { date } from '../format/dates.ts';
import { callWords, limitName } from '../format/words.ts';
import { useFleetState } from './fleetState.tsx';
import { useRead } from './useRead.ts';

/** Units whose call or governing limit changed over the last week, with the records that moved them. */
export function Moves() {
  const state = useFleetState();
  const { data } = useRead<'moves'>('/api/moves', { days: 7 }, state.data?.revision);
  return (
    <section aria-labelledby="moves-title">
      <h2 id="moves-title">What moved since {data === null ? 'last week' : date(data.since)}</h2>
      {data === null && <p class="muted">Comparing with last week …</p>}
      {data !== null && data.moves.length === 0 && <p>No unit's call or governing limit changed.</p>}
      {data !== null && data.moves.length > 0 && (
        <ul class="moves">
          {data.moves.slice(0, 12).map((move) => (
            <li key={move.unitNumber}>
              <a href={`/units/${encodeURIComponent(move.unitNumber)}`}>{move.unitNumber}</a>{' '}
              {move.from !== move.to
                ? `from ${move.from === null ? 'not in the fleet' : callWords[move.from]} to ${move.to === null ? 'not in the fleet' : callWords[move.to]}`
                : `now governed by ${limitName(move.toLimit)}, before by ${limitName(move.fromLimit)}`}
              {move.because.length > 0 ? (
                <span class="muted"> after {move.because.map((link) => link.text).join('; ')}</span>
              ) : (
                <span class="muted"> by time and use alone</span>
              )}
            </li>
          ))}
          {data.moves.length > 12 && <li class="muted">and {data.moves.length - 12} more</li>}
        </ul>
      )}
    </section>
  );
}
