import { useEffect, useState } from 'preact/hooks';
import { RequestError, write } from '../api.ts';
import { date, moment } from '../format/dates.ts';
import { useConnection } from './connection.ts';
import { useFleetState } from './fleetState.tsx';
import { useFormer } from './former.ts';
import { demoShown, keepDemoShown } from './keptEntry.ts';
import { Notice } from './notice.tsx';
import { Pending } from './pending.tsx';
import { retryAll } from './useRead.ts';
import { Waiting } from './waiting.tsx';

/** Says how it stands with the connection and what waits on this device; when the demo is shown; when the server is gone. */
export function Banner() {
  const { data, error, again } = useFleetState();
  const connection = useConnection();
  // until the state is read, what was shown last stands, so that the page does not jump
  const demoAsOf = data === null ? demoShown() : data.store === 'demo' ? data.asOf : '';
  useEffect(() => {
    if (data !== null) keepDemoShown(demoAsOf);
  }, [data, demoAsOf]);
  return (
    <>
      <Pending />
      {error !== null && <Notice kind="fault" words={error.message} action="Try again" onAction={retryAll} />}
      {error === null && typeof connection !== 'string' && (
        <Notice
          kind="hint"
          words={`The server does not answer. What you see was read ${moment(connection.keptAt)} and is kept on this device; what you enter is kept too and sent when the server answers.`}
          action="Try again"
          onAction={again}
        />
      )}
      {error === null && <InWork />}
      <Waiting />
      {error === null && demoAsOf !== '' && <DemoBanner asOf={demoAsOf} />}
    </>
  );
}

/** What is shown is of earlier records; the page reads again by itself until it is not. */
export function InWork() {
  const madeAt = useFormer();
  if (madeAt === null) return null;
  return (
    <Notice
      kind="wait"
      words={`As of ${moment(madeAt)}; what came in since then is being worked through. This page renews itself when that is done.`}
    />
  );
}

function DemoBanner({ asOf }: { asOf: string }) {
  const [fault, setFault] = useState<string | null>(null);
  const begin = (): void => {
    write<'beginOwn'>('/api/own', {})
      .then(() => window.location.assign('/intake'))
      .catch((reason: unknown) => setFault(reason instanceof RequestError ? reason.message : String(reason)));
  };
  return (
    <div class="banner" role="status">
      <p>
        <strong>Demo.</strong> An invented county's works fleet, as of {date(asOf)}. Nothing here is real, and
        nothing of it is mixed into your own records.
      </p>
      <button type="button" onClick={begin}>
        Begin with own records
      </button>
      {fault !== null && <Notice kind="fault" words={fault} />}
    </div>
  );
}
