import { useLocation, useRoute } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { jobWords } from '../../models/cards/jobCard.ts';
import type { CardClosing, JobCard } from '../../models/schema/jobCard.ts';
import { shopJobs } from '../../models/schema/shopPlan.ts';
import type { Visit } from '../../models/schema/visit.ts';
import { RequestError, write, type Answer } from '../api.ts';
import { date } from '../format/dates.ts';
import { modelWords } from '../format/modelWords.ts';
import type { CardFilling } from '../parts/cardField.tsx';
import { closingOf, emptyCard, unreadNumbers, type CardForm } from '../parts/cardForm.ts';
import { CardReady } from '../parts/cardReady.tsx';
import { CardRecord, CardSteps } from '../parts/cardWork.tsx';
import { WaitingEntries } from '../parts/deskWaiting.tsx';
import { draftOf, keepDraft, typedSince } from '../parts/drafts.ts';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { dropEntry, keptEntries, newEntry } from '../parts/keptEntry.ts';
import { Loading, Notice } from '../parts/notice.tsx';
import { failureWords, sendEntry } from '../parts/sendEntry.ts';
import { useRead } from '../parts/useRead.ts';
import '../styles/card.css';

/** A job card: of a visit, or of a unit that came without a booking. */
export function CardPage() {
  const { params } = useRoute();
  const { query } = useLocation();
  const id = params.visitId ?? 'new';
  const chosen = (query.unit ?? '') !== '' && (query.jobs ?? '') !== '';
  const booked = useRead<'visitCard'>(id === 'new' ? null : `/api/visits/${encodeURIComponent(id)}/card`);
  const loose = useRead<'newCard'>(id === 'new' && chosen ? '/api/cards' : null, {
    unit: query.unit,
    jobs: query.jobs,
  });
  const card = (id === 'new' ? loose : booked).data?.card ?? null;
  const { error, again } = id === 'new' ? loose : booked;
  useEffect(() => {
    document.title = 'Job card · Sumpwise';
  }, []);
  return (
    <main id="page" class="card">
      <h1>Job card{card === null ? '' : `: unit ${card.unitNumber}`}</h1>
      {id === 'new' && (!chosen || error !== null) && <Choose unit={query.unit ?? ''} />}
      {error !== null && <Notice kind="fault" words={error.message} action="Try again" onAction={again} />}
      {error !== null && card === null && id !== 'new' && (
        <WaitingEntries under={`/api/visits/${id}/card`} onSent={again} />
      )}
      {card === null && error === null && (id !== 'new' || chosen) && <Loading what="the card" />}
      {card !== null && (
        <Card
          key={`${id} ${card.unitNumber} ${card.jobs.join()}`}
          card={card}
          visit={id === 'new' ? null : (booked.data?.visit ?? null)}
          again={again}
        />
      )}
    </main>
  );
}

function Choose({ unit }: { unit: string }) {
  const { route } = useLocation();
  const [number, setNumber] = useState(unit);
  const [jobs, setJobs] = useState<readonly string[]>([]);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        route(`/card/new?unit=${encodeURIComponent(number.trim())}&jobs=${jobs.join(',')}`);
      }}
    >
      <label class="card-field">
        <span>Unit</span>
        <input type="text" value={number} onInput={(event) => setNumber(event.currentTarget.value)} />
      </label>
      <fieldset>
        <legend>Jobs</legend>
        {shopJobs.map((job) => (
          <label class="card-tick" key={job}>
            <input
              type="checkbox"
              checked={jobs.includes(job)}
              onChange={() =>
                setJobs(jobs.includes(job) ? jobs.filter((other) => other !== job) : [...jobs, job])
              }
            />
            <span>{jobWords[job]}</span>
          </label>
        ))}
      </fieldset>
      <button class="main" disabled={number.trim() === '' || jobs.length === 0}>
        Make the card
      </button>
    </form>
  );
}

function Card({ card, visit, again }: { card: JobCard; visit: Visit | null; again: () => void }) {
  const state = useFleetState();
  const { measures } = useSettings();
  const draft = `card.${visit?.id ?? 'new'}.${card.unitNumber}.${card.jobs.join()}`;
  const path = visit === null ? '/api/cards' : `/api/visits/${visit.id}/card`;
  const [form, setForm] = useState<CardForm>(() => ({ ...emptyCard, ...draftOf(draft, emptyCard) }));
  const [faults, setFaults] = useState<Record<string, string>>({});
  const [failed, setFailed] = useState<string | null>(null);
  const [sending, setSending] = useState(false);
  const [closed, setClosed] = useState<Answer<'closeCard'> | null>(null);
  const keep = (next: CardForm): void => {
    setForm(next);
    keepDraft(draft, next);
  };
  const filling: CardFilling = {
    form,
    faults,
    type: (field, value) => keep({ ...form, text: { ...form.text, [field]: value } }),
    tick: (field, value) => keep({ ...form, ticks: { ...form.ticks, [field]: value } }),
  };
  const refuse = (fields: readonly { field: string; message: string }[]): void => {
    setFaults(Object.fromEntries(fields.map(({ field, message }) => [field, modelWords(message)])));
    setFailed(fields.map(({ message }) => modelWords(message)).join(' '));
  };
  const close = async (): Promise<void> => {
    const unread = unreadNumbers(card, form);
    if (unread.length > 0) return refuse(unread);
    const title = `Job card of unit ${card.unitNumber}`;
    // a second entry would have a key of its own and could close the card twice
    const earlier = keptEntries(path).filter((entry) => entry.title === title);
    if (earlier.some(({ refused }) => refused === undefined))
      return setFailed('This card waits to be sent already: send it above, or give it up there first.');
    const closing: CardClosing = closingOf(card, form, measures);
    const bodyOf = (own: CardClosing) =>
      visit === null
        ? { unitNumber: card.unitNumber, jobs: card.jobs, closing: own }
        : { version: visit.version, closing: own };
    const made = newEntry(title, path, bodyOf(closing), { name: draft, typed: { ...form } }, (day) =>
      bodyOf({ ...closing, closedOn: closing.closedOn ?? day }),
    );
    setSending(true);
    setFailed(null);
    setFaults({});
    try {
      setClosed(await sendEntry<'closeCard'>(made));
      // those that were refused before are done with
      for (const { key } of earlier) dropEntry(key);
      state.again();
    } catch (reason) {
      if (reason instanceof RequestError && reason.fields.length > 0) refuse(reason.fields);
      else setFailed(failureWords(reason, made, 'The card'));
      // the next press is for the visit as it stands by then
      if (reason instanceof RequestError && reason.code === 'changed_meanwhile') again();
    } finally {
      setSending(false);
    }
  };
  if (closed !== null) return <Closed closed={closed} by={form.text.technician ?? ''} />;
  const waiting = (
    <WaitingEntries
      under={path}
      onSent={({ draft: sent }) => {
        if (sent?.name === draft) setForm((now) => ({ ...emptyCard, ...typedSince(now, sent.typed) }));
        setFailed(null);
        state.again();
        again();
      }}
    />
  );
  if (visit?.state === 'done')
    return (
      <>
        {waiting}
        <Notice kind="done" words={`This card is closed, with batch ${visit.batch ?? 'not known'}.`} />
      </>
    );
  return (
    <>
      {waiting}
      <CardReady card={card} />
      {/* what would be typed while it is sent would not be part of it */}
      <fieldset class="card-filling" disabled={sending}>
        <CardSteps card={card} filling={filling} />
        <CardRecord card={card} filling={filling} />
      </fieldset>
      {failed !== null && <Notice kind="fault" words={failed} />}
      <p class="no-print">
        <button class="main" type="button" disabled={sending} onClick={() => void close()}>
          {sending ? 'Closing the card …' : 'Close the card'}
        </button>
      </p>
    </>
  );
}

function Closed({ closed, by }: { closed: Answer<'closeCard'>; by: string }) {
  const state = useFleetState();
  const [undone, setUndone] = useState<string | null>(null);
  const { visit } = closed;
  const undo = (): void => {
    write<'undoVisit'>(`/api/visits/${visit.id}/undo`, {
      version: visit.version,
      by: by.trim(),
    })
      .then(() => {
        setUndone('The card is open again and its records are taken back.');
        state.again();
      })
      .catch((reason: unknown) => setUndone(reason instanceof Error ? reason.message : String(reason)));
  };
  return (
    <>
      <Notice
        kind="done"
        words={`Card closed. Oil due ${date(closed.dueAfter)}; before, ${date(closed.dueBefore)}.`}
      />
      {closed.messages.map((words) => (
        <p key={words}>{modelWords(words)}</p>
      ))}
      <p>
        <a href={`/units/${encodeURIComponent(visit.unitNumber)}`}>Unit {visit.unitNumber}</a>,{' '}
        <a href="/visits">Visits</a>
      </p>
      {undone === null ? (
        <button type="button" onClick={undo}>
          Undo
        </button>
      ) : (
        <p role="status">{undone}</p>
      )}
    </>
  );
}
