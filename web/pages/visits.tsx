import '../styles/shop.css';
import '../styles/records.css';
import { useLocation } from 'preact-iso';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { visitStateWords, visitStates } from '../../models/schema/visit.ts';
import { date } from '../format/dates.ts';
import { Actuals } from '../parts/actuals.tsx';
import { ColumnHeads } from '../parts/columnHeads.tsx';
import { useFleetState } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { ShopLinks } from '../parts/shopLinks.tsx';
import { useRead } from '../parts/useRead.ts';
import { VisitRow } from '../parts/visitRow.tsx';
import { useWriter, WriterName } from '../parts/writerName.tsx';

/** Visits asked for and booked, by day: where each stands, and its next states. */
export function VisitsPage() {
  const state = useFleetState();
  const location = useLocation();
  const { data, error, again } = useRead<'visits'>('/api/visits', {}, state.data?.revision);
  const [by, setBy] = useWriter();
  const [done, setDone] = useState('');
  useEffect(() => {
    document.title = 'Visits · Sumpwise';
  }, []);
  const shown = location.query.state ?? '';
  const site = location.query.site ?? '';
  const choose = (change: Record<string, string>): void => {
    const words = Object.entries({ state: shown, site, ...change }).filter(([, value]) => value !== '');
    location.route(words.length === 0 ? '/visits' : `/visits?${new URLSearchParams(words).toString()}`, true);
  };
  const listed = useMemo(
    () =>
      (data?.visits ?? []).filter(
        (visit) => (shown === '' || visit.state === shown) && (site === '' || visit.site === site),
      ),
    [data, shown, site],
  );
  const sites = [...new Set((data?.visits ?? []).flatMap((visit) => visit.site ?? []))].sort();
  const open = listed.filter((visit) => visit.state !== 'done').length;
  return (
    <main id="page">
      <h1>Visits</h1>
      <ShopLinks at="/visits" />
      {data === null ? (
        error === null ? (
          <Loading what="the visits" />
        ) : (
          <ReadFault error={error} again={again} />
        )
      ) : data.visits.length === 0 ? (
        <Notice
          kind="hint"
          words="There is no visit yet. Publish a shop plan, or close a job card for a unit that came without one."
        />
      ) : (
        <>
          <p class="sentence">
            {open} of {listed.length} visits are still open.
          </p>
          <form class="filters" onSubmit={(event) => event.preventDefault()} aria-label="Visits">
            <WriterName by={by} setBy={setBy} />
            <label>
              Stands at
              <select value={shown} onChange={(event) => choose({ state: event.currentTarget.value })}>
                <option value="">all</option>
                {visitStates.map((name) => (
                  <option key={name} value={name}>
                    {visitStateWords[name]}
                  </option>
                ))}
              </select>
            </label>
            <label>
              Site
              <select value={site} onChange={(event) => choose({ site: event.currentTarget.value })}>
                <option value="">all</option>
                {sites.map((name) => (
                  <option key={name} value={name}>
                    {name}
                  </option>
                ))}
              </select>
            </label>
          </form>
          {by.trim().length < 2 && <p class="muted">Write your name to move a visit on.</p>}
          {done !== '' && <Notice kind="done" words={done} />}
          <div class="table-frame" tabIndex={0} role="region" aria-label="Visits by day">
            <table class="stacking visits">
              <ColumnHeads titles={['Day', 'Unit', 'Where', 'Jobs', 'Stands at', 'Next']} />
              <tbody>
                {listed.map((visit) => (
                  <VisitRow
                    key={visit.id}
                    visit={visit}
                    by={by.trim()}
                    onChanged={(words) => {
                      setDone(words);
                      again();
                    }}
                  />
                ))}
              </tbody>
            </table>
          </div>
          <p class="muted">As of {date(data.asOf)}.</p>
        </>
      )}
      <p class="alone">
        <a href="/card/new">Job card without a visit</a>
      </p>
      <Actuals />
    </main>
  );
}
