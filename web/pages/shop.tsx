import { useLocation } from 'preact-iso';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { planLoadChart, weekLoads } from '../charts/planLoad.ts';
import { date, dayAndMonth } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { planSentence, planWeeks } from '../format/planWords.ts';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { SiteChoice, siteIn, WeeksChoice } from '../parts/planFilters.tsx';
import { PlanHandOn } from '../parts/planHandOn.tsx';
import { PlanDowntime, PlanNotPlaced } from '../parts/planLists.tsx';
import { PlanVisitDetail } from '../parts/planVisitDetail.tsx';
import { PlanWeek, type DropPlace, type WeekRows } from '../parts/planWeek.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { ShopLinks } from '../parts/shopLinks.tsx';
import { usePlan } from '../parts/usePlan.ts';
import '../styles/shop.css';
import '../styles/records.css';

/** The shop plan: who comes when, what does not fit, what is to be ordered. */
export function ShopPage() {
  const state = useFleetState();
  const location = useLocation();
  const [words, setWords] = useState<string | null>(null);
  useEffect(() => {
    document.title = 'Shop plan · Sumpwise';
  }, []);
  const weeks = Number(location.query.weeks) || 8;
  const { data, error, working, again } = usePlan(weeks, state.data?.revision);
  // a change answers with the new stand before the plan is read anew
  const [stand, setStand] = useState<string | null>(null);
  useEffect(() => setStand(null), [data]);
  const changed = (told: string, after: string): void => {
    setWords(told);
    setStand(after);
    again();
  };
  return (
    <main id="page" aria-busy={working !== null}>
      <h1>Shop plan</h1>
      <ShopLinks at="/shop" />
      {error !== null && <ReadFault error={error} again={again} />}
      {working !== null && (
        <Loading what={data === null ? `the shop plan${working}` : `the plan anew${working}`} />
      )}
      {words !== null && <Notice kind="done" words={words} />}
      {data !== null && <Plan answer={data} stand={stand ?? data.stand} weeks={weeks} onChanged={changed} />}
    </main>
  );
}

function Plan({
  answer,
  stand,
  weeks,
  onChanged,
}: {
  readonly answer: PlanAnswer;
  readonly stand: string;
  readonly weeks: number;
  readonly onChanged: (words: string, stand: string) => void;
}) {
  const { plan, currency } = answer;
  const { firstDayOfWeek } = useSettings();
  const location = useLocation();
  const [chosen, setChosen] = useState<string | null>(null);
  const [target, setTarget] = useState<DropPlace | null>(null);
  const query = { from: plan.from, weeks: plan.weeks, stand };
  const starts = useMemo(() => planWeeks(plan, firstDayOfWeek), [plan, firstDayOfWeek]);
  const site = siteIn(answer.sites, location.query.site);
  const shown = Math.max(0, starts.indexOf(location.query.week ?? ''));
  const week = starts[shown];
  const rowsBy: WeekRows = location.query.rows === 'technician' ? 'technician' : 'bay';
  const day = location.query.day ?? '';
  const loads = useMemo(() => weekLoads(plan, starts, site), [plan, starts, site]);
  const chart = useMemo(() => planLoadChart(loads, shown), [loads, shown]);
  const go = (change: Record<string, string>): void => {
    setChosen(null);
    location.route(
      `/shop?${new URLSearchParams({ weeks: String(weeks), site, week, rows: rowsBy, day: '', ...change }).toString()}`,
      true,
    );
  };
  const [visits, left, gap] = planSentence(plan, currency);
  const visit = plan.visits.find(({ id }) => id === chosen);
  if (plan.visits.length === 0 && plan.notPlaced.length === 0)
    return (
      <>
        <Notice
          kind="hint"
          words={`Nothing falls due in the next ${plan.weeks} weeks, so there is no plan.`}
        />
        <p>
          A plan needs sites with bays and technicians, and units with service history:{' '}
          <a href="/intake">bring them in</a>.
        </p>
      </>
    );
  return (
    <>
      <p class="sentence">
        <strong>{visits}</strong>; {left}; {gap}.
      </p>
      <div class="plan-filters no-print">
        <SiteChoice sites={answer.sites} site={site} choose={(named) => go({ site: named })} />
        <WeeksChoice weeks={weeks} choose={(ahead) => go({ weeks: ahead, week: '' })} />
        <label>
          Rows
          <select value={rowsBy} onChange={(event) => go({ rows: event.currentTarget.value, day })}>
            <option value="bay">bays</option>
            <option value="technician">technicians</option>
          </select>
        </label>
      </div>
      <h2>Load against capacity</h2>
      <ChartCanvas
        configure={chart}
        height={240}
        onPick={(index) => starts[index] !== undefined && go({ week: starts[index] })}
        summary={loads
          .map((row) => `week from ${dayAndMonth(row.week)}: ${plain(row.used)} of ${plain(row.room)} hours`)
          .join('; ')}
      />
      <h2>{day === '' ? `Week from ${dayAndMonth(week)}` : date(day)}</h2>
      <p class="week-steps no-print">
        <button type="button" disabled={shown === 0} onClick={() => go({ week: starts[shown - 1] })}>
          Week before
        </button>
        <button
          type="button"
          disabled={shown + 1 >= starts.length}
          onClick={() => go({ week: starts[shown + 1] })}
        >
          Week after
        </button>
        {day !== '' && (
          <button type="button" onClick={() => go({})}>
            Whole week
          </button>
        )}
      </p>
      <PlanWeek
        answer={answer}
        week={week}
        day={day === '' ? null : day}
        rowsBy={rowsBy}
        onDay={(only) => go({ day: only ?? '' })}
        site={site}
        chosen={chosen}
        onChoose={(id) => {
          setTarget(null);
          setChosen(id);
        }}
        onDrop={(place) => {
          if (plan.visits.find(({ id }) => id === place.visitId)?.site !== place.site) return;
          setTarget(place);
          setChosen(place.visitId);
        }}
      />
      {visit !== undefined && (
        <PlanVisitDetail
          key={`${visit.id} ${target?.on} ${target?.bay} ${target?.technician} ${visit.on} ${visit.bay} ${visit.technician}`}
          answer={answer}
          visit={visit}
          query={query}
          target={target}
          onChanged={(told, after) => {
            setTarget(null);
            onChanged(told, after);
          }}
          onClose={() => setChosen(null)}
        />
      )}
      <h2 class="no-print">Hand on</h2>
      <PlanHandOn
        key={week}
        answer={answer}
        query={query}
        site={site}
        week={[week, isoFromDay(dayFromIso(week) + 6)]}
        onPublished={onChanged}
      />
      <p class="no-print">
        To keep: <a href={`/api/plan.ics?weeks=${plan.weeks}`}>calendar (ICS)</a>,{' '}
        <a href={`/api/plan.csv?weeks=${plan.weeks}`}>plan (CSV)</a>. What it takes from the shelves stands
        under <a href="/shop/supplies">Orders and shelves</a>.
      </p>
      <h2>No place in the plan</h2>
      <PlanNotPlaced answer={answer} site={site} />
      <h2>Downtime</h2>
      <PlanDowntime answer={answer} site={site} />
      {plan.messages.length > 0 && (
        <>
          <h2>What the plan assumes</h2>
          <ul>
            {plan.messages.map((message) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
