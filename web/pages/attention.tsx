import { useLocation } from 'preact-iso';
import { useCallback, useEffect, useMemo } from 'preact/hooks';
import type { FleetList } from '../../models/schema/fleetList.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import {
  columnOf,
  columnWords,
  dueByWeekChart,
  dueReason,
  dueTable,
  type DueTable,
} from '../charts/dueByWeek.ts';
import { loadCharts } from '../charts/loadCharts.ts';
import { date, fromNow } from '../format/dates.ts';
import { AttentionList, byUrgency } from '../parts/attentionList.tsx';
import { attentionSentence } from '../parts/attentionSentence.tsx';
import { FirstSteps } from '../parts/firstSteps.tsx';
import { AttentionFilters, filterFrom, matches, type AttentionFilter } from '../parts/attentionFilters.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Moves } from '../parts/moves.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { PromiseSection } from '../parts/promise.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { useRead } from '../parts/useRead.ts';
import { PageTerms } from '../parts/term.tsx';
import { WeekTable } from '../parts/weekTable.tsx';

/** What must stop, what is due, is there room; then why, then the units behind it. */
export function Attention() {
  const state = useFleetState();
  const fleet = useRead<'fleetList'>('/api/fleet-list', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Attention · Sumpwise';
    void loadCharts();
  }, []);
  if (fleet.data === null)
    return (
      <main id="page">
        <h1>Attention</h1>
        {fleet.error === null ? (
          <Loading what="the fleet" />
        ) : (
          <ReadFault error={fleet.error} again={fleet.again} />
        )}
      </main>
    );
  return <AttentionPage fleet={fleet.data} />;
}

function AttentionPage({ fleet }: { fleet: FleetList }) {
  const { firstDayOfWeek } = useSettings();
  const location = useLocation();
  const filter = useMemo(() => filterFrom(location.query), [location.url]);
  const choose = useCallback(
    (change: Partial<AttentionFilter>) => {
      const words = Object.entries({ ...filter, ...change }).filter(
        ([, value]) => value !== '' && value !== null,
      );
      const query = new URLSearchParams(words.map(([name, value]) => [name, String(value)])).toString();
      location.route(query === '' ? '/' : `/?${query}`, true);
    },
    [filter, location],
  );
  const ordered = useMemo(() => [...fleet.units].sort(byUrgency), [fleet]);
  const placed = useMemo(() => ordered.filter((unit) => matches(unit, filter)), [ordered, filter]);
  const table = useMemo(() => dueTable(placed, fleet.asOf, firstDayOfWeek), [placed, fleet, firstDayOfWeek]);
  const listed = useMemo(
    () =>
      placed.filter(
        (unit) =>
          (filter.week === null || columnOf(unit, fleet.asOf, firstDayOfWeek) === filter.week) &&
          (filter.reason === '' || dueReason(unit) === filter.reason),
      ),
    [placed, fleet, filter, firstDayOfWeek],
  );
  const sentence = useMemo(
    () => attentionSentence(placed, fleet, firstDayOfWeek),
    [placed, fleet, firstDayOfWeek],
  );
  if (fleet.units.length === 0)
    return (
      <main id="page">
        <h1>Attention</h1>
        <Notice
          kind="hint"
          words="There are no units yet. Bring your records in: units first, or all files at once; the order does not matter."
        />
        <p>
          <a href="/intake">To Intake</a>
        </p>
        <FirstSteps />
      </main>
    );
  return (
    <main id="page">
      <h1>Attention</h1>
      {sentence}
      <p class="age">
        As of {date(fleet.asOf)}.{' '}
        {fleet.newestRecordOn === null
          ? 'There is no dated record yet.'
          : `Newest record ${date(fleet.newestRecordOn)} (${fromNow(fleet.asOf, fleet.newestRecordOn)}).`}{' '}
        <a href="/monitor">Shop monitor</a>
      </p>
      <FirstSteps />
      <AttentionFilters fleet={fleet} filter={filter} choose={choose} reasons={table.reasons} />
      <DueChart table={table} room={roomOf(fleet, filter.site)} choose={choose} filter={filter} />
      <PromiseSection site={filter.site} />
      <Moves />
      <h2>
        {listed.length === fleet.units.length
          ? 'All units'
          : `${listed.length} of ${fleet.units.length} units`}
        {filter.week !== null && `, ${columnWords(table, filter.week)}`}
        {filter.reason !== '' && ` by ${filter.reason}`}, most urgent first
      </h2>
      <AttentionList units={listed} asOf={fleet.asOf} horizonDays={fleet.horizonDays} />
      {fleet.messages.length > 0 && (
        <>
          <h2>What these figures rest on</h2>
          <ul>
            {fleet.messages.map((message) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
        </>
      )}
      <PageTerms ids={['call', 'drain_interval', 'severe_service', 'dispersancy', 'chance', 'range']} />
    </main>
  );
}

/** Oil services a week that the chosen site holds, or all sites together. */
function roomOf(fleet: FleetList, site: string): number | null {
  const chosen = fleet.capacities.filter((capacity) => site === '' || capacity.site === site);
  if (chosen.length === 0) return null;
  return chosen.reduce((sum, capacity) => sum + capacity.visitsPerWeek, 0);
}

interface DueChartProps {
  readonly table: DueTable;
  readonly room: number | null;
  readonly filter: AttentionFilter;
  readonly choose: (change: Partial<AttentionFilter>) => void;
}

function DueChart({ table, room, filter, choose }: DueChartProps) {
  const chosen = filter.week;
  const configure = useMemo(() => dueByWeekChart(table, room, chosen), [table, room, chosen]);
  const pick = useCallback(
    (column: number) => choose({ week: filter.week === column ? null : column }),
    [choose, filter.week],
  );
  const past = table.units.reduce((sum, rows) => sum + rows[0].length, 0);
  const soon = table.units.reduce((sum, rows) => sum + rows[1].length, 0);
  return (
    <section aria-labelledby="due-title">
      <h2 id="due-title">Due by week and reason</h2>
      <ChartCanvas
        configure={configure}
        height={300}
        onPick={pick}
        summary={`Units due by week for 13 weeks, stacked by the limit that governs: ${past} past, ${soon} in the first week${room === null ? '' : `, room for ${Math.round(room)} oil services a week`}.`}
      />
      <WeekTable table={table} room={room} filter={filter} choose={choose} />
    </section>
  );
}
