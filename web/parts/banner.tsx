import { useLocation } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { RequestError, write } from '../api.ts';
import { date, moment } from '../format/dates.ts';
import { counted } from '../format/words.ts';
import { backEvent, useConnection } from './connection.ts';
import { useFleetState } from './fleetState.tsx';
import { useFormer } from './former.ts';
import { draftOf, keepDraft, keptEntries, sendWaiting, sentEvent } from './keptEntry.ts';
import { Notice } from './notice.tsx';
import { retryAll } from './useRead.ts';

const demoDraft = 'demo-shown';

/** Says how it stands with the connection and what waits on this device; when the demo is shown; when the server is gone. */
export function Banner() {
  const { data, error, again } = useFleetState();
  const connection = useConnection();
  // until the state is read, what was shown last stands, so that the page does not jump
  const demoAsOf = data === null ? draftOf(demoDraft, '') : data.store === 'demo' ? data.asOf : '';
  useEffect(() => {
    if (data !== null) keepDraft(demoDraft, demoAsOf === '' ? null : demoAsOf);
  }, [data, demoAsOf]);
  if (error !== null)
    return <Notice kind="fault" words={error.message} action="Try again" onAction={retryAll} />;
  return (
    <>
      {typeof connection !== 'string' && (
        <Notice
          kind="hint"
          words={`The server does not answer. What you see was read ${moment(connection.keptAt)} and is kept on this device; what you enter is kept too and sent when the server answers.`}
          action="Try again"
          onAction={again}
        />
      )}
      <InWork />
      <Waiting />
      {demoAsOf !== '' && <DemoBanner asOf={demoAsOf} />}
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

/** Pages that show what waits in their own place. */
const ownPlace = /^\/(desk|card)/;

/** Entries that wait are sent when the server is back, and told of on every page. */
function Waiting() {
  const { path } = useLocation();
  const state = useFleetState();
  const [sent, setSent] = useState<string | null>(null);
  const [, setTurn] = useState(0);
  useEffect(() => {
    const send = (): void => void sendWaiting().then(() => setTurn((turn) => turn + 1));
    const told = (event: Event): void => {
      setSent((event as CustomEvent<{ title: string }>).detail.title);
      state.again();
    };
    window.addEventListener(backEvent, send);
    window.addEventListener('online', send);
    window.addEventListener(sentEvent, told);
    return () => {
      window.removeEventListener(backEvent, send);
      window.removeEventListener('online', send);
      window.removeEventListener(sentEvent, told);
    };
  }, [state.again]);
  const waiting = keptEntries();
  if (ownPlace.test(path) || waiting.length === 0)
    return sent === null ? null : <Notice kind="done" words={`${sent}: sent.`} />;
  return (
    <Notice
      kind="hint"
      words={`${counted(waiting.length, 'entry waits', 'entries wait')} on this device: ${waiting.map(({ title, refused }) => (refused === undefined ? title : `${title} (not taken: ${refused})`)).join('; ')}.`}
      action="Send now"
      onAction={() => void sendWaiting(true).then(() => setTurn((turn) => turn + 1))}
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
