import { useState } from 'preact/hooks';
import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import { RequestError, write } from '../api.ts';
import { driverText, mailOf } from '../format/planWords.ts';
import { counted } from '../format/words.ts';
import { Notice } from './notice.tsx';

interface HandOnProps {
  readonly answer: PlanAnswer;
  /** which plan, and the stand that the page shows */
  readonly query: PlanQuery & { readonly stand: string };
  readonly site: string;
  /** first and last day of the week that is shown */
  readonly week: readonly [string, string];
  readonly onPublished: (words: string, stand: string) => void;
}

/** Publishing, the calendar's private address, and what drivers are told. */
export function PlanHandOn({ answer, query, site, week, onPublished }: HandOnProps) {
  const [by, setBy] = useState('');
  const [through, setThrough] = useState(week[1]);
  const [feedSite, setFeedSite] = useState(site === '' ? (answer.sites.at(0)?.site ?? '') : site);
  const [address, setAddress] = useState<string | null>(null);
  const [copied, setCopied] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const attempt = async (work: () => Promise<void>): Promise<void> => {
    setBusy(true);
    setFault(null);
    try {
      await work();
    } catch (error) {
      setFault(error instanceof RequestError ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  const copy = (text: string): void =>
    void navigator.clipboard.writeText(text).then(
      () => setCopied(text),
      () => setFault('The browser does not let the text be copied; mark it and copy it by hand.'),
    );
  const named = by.trim().length > 1;
  const visits = answer.plan.visits.filter(
    (visit) => visit.on >= week[0] && visit.on <= week[1] && (site === '' || visit.site === site),
  );
  return (
    <>
      <form
        class="plan-publish no-print"
        onSubmit={(event) => {
          event.preventDefault();
          void attempt(async () => {
            const { published, stand } = await write<'publishPlan'>('/api/plan/publish', {
              ...query,
              through,
              by,
            });
            onPublished(`${counted(published, 'visit is', 'visits are')} booked.`, stand);
          });
        }}
      >
        <label>
          Your name
          <input value={by} autocomplete="name" onInput={(event) => setBy(event.currentTarget.value)} />
        </label>
        <label>
          Book visits through
          <input
            type="date"
            value={through}
            required
            onInput={(event) => setThrough(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="main" disabled={busy || !named}>
          Publish
        </button>
        <button type="button" onClick={() => window.print()}>
          Print
        </button>
      </form>
      <p class="muted no-print">
        Publishing books the visits of all sites up to that day: they keep their place in every later plan and
        stand on the page <a href="/visits">Visits</a>.
      </p>
      {fault !== null && <Notice kind="fault" words={fault} />}
      <div class="no-print">
        <h3>Calendar with a private address</h3>
        <form
          class="plan-publish"
          onSubmit={(event) => {
            event.preventDefault();
            void attempt(async () => {
              const { path } = await write<'makePlanFeed'>('/api/plan/feeds', { site: feedSite, by });
              setAddress(window.location.origin + path);
            });
          }}
        >
          <label>
            Site
            <select value={feedSite} onChange={(event) => setFeedSite(event.currentTarget.value)}>
              {answer.sites.map((entry) => (
                <option key={entry.site}>{entry.site}</option>
              ))}
            </select>
          </label>
          <button type="submit" disabled={busy || !named}>
            Make a new address
          </button>
        </form>
        {address === null ? (
          <p class="muted">
            Asks for your name above. Whoever has the address sees the site's visits; a new one ends the one
            before.
          </p>
        ) : (
          <p>
            Shown once: <code class="plan-address">{address}</code>{' '}
            <button type="button" onClick={() => copy(address)}>
              {copied === address ? 'Copied' : 'Copy address'}
            </button>
          </p>
        )}
        <details>
          <summary>What drivers are told in this week ({counted(visits.length, 'text')})</summary>
          <ul class="driver-texts">
            {visits.map((visit) => {
              const loan = answer.loans.find(({ visitId }) => visitId === visit.id);
              const text = driverText(visit, loan?.loanUnit ?? null);
              return (
                <li key={visit.id}>
                  {text}{' '}
                  <button
                    type="button"
                    onClick={() => copy(text)}
                    aria-label={`Copy for ${visit.unitNumber}`}
                  >
                    {copied === text ? 'Copied' : 'Copy'}
                  </button>{' '}
                  <a href={mailOf(visit, text)} aria-label={`E-mail for ${visit.unitNumber}`}>
                    E-mail
                  </a>
                </li>
              );
            })}
          </ul>
        </details>
      </div>
    </>
  );
}
