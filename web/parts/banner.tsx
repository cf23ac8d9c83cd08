import { useState } from 'preact/hooks';
import { RequestError, write } from '../api.ts';
import { date } from '../format/dates.ts';
import { useFleetState } from './fleetState.tsx';
import { Notice } from './notice.tsx';
import { retryAll } from './useRead.ts';

/** Says when the demo is shown and offers to begin with own records; says when the server is gone. */
export function Banner() {
  const { data, error } = useFleetState();
  const [fault, setFault] = useState<string | null>(null);
  if (error !== null)
    return <Notice kind="fault" words={error.message} action="Try again" onAction={retryAll} />;
  if (data === null || data.store === 'own') return null;
  const begin = (): void => {
    write<'beginOwn'>('/api/own', {})
      .then(() => window.location.assign('/intake'))
      .catch((reason: unknown) => setFault(reason instanceof RequestError ? reason.message : String(reason)));
  };
  return (
    <div class="banner" role="status">
      <p>
        <strong>Demo.</strong> An invented county's works fleet, as of {date(data.asOf)}. Nothing here is
        real, and nothing of it is mixed into your own records.
      </p>
      <button type="button" onClick={begin}>
        Begin with own records
      </button>
      {fault !== null && <Notice kind="fault" words={fault} />}
    </div>
  );
}
