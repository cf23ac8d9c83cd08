import { useLocation, useRoute } from 'preact-iso';
import { useEffect } from 'preact/hooks';
import type { HistoryEntry, UnitHistoryDocument } from '../../models/schema/unitEndpoints.ts';
import { date, fromNow } from '../format/dates.ts';
import { distance, hours, plain, volume } from '../format/measures.ts';
import { counted } from '../format/words.ts';
import { workWords } from '../format/workWords.ts';
import { ColumnHeads } from '../parts/columnHeads.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading } from '../parts/notice.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { useRead } from '../parts/useRead.ts';
import '../styles/history.css';

/** The dated service history of a unit for a warranty clerk or a buyer: on paper, each line with its source. */
export function HistoryPage() {
  const { params } = useRoute();
  const { query, route } = useLocation();
  const unitNumber = params.unitNumber ?? '';
  const state = useFleetState();
  const place = `/units/${encodeURIComponent(unitNumber)}`;
  const { data, error, again } = useRead<'unitHistory'>(`/api${place}/history`, {}, state.data?.revision);
  const meters = query.meters === 'yes';
  useEffect(() => {
    document.title = `Service history of unit ${unitNumber} · Sumpwise`;
  }, [unitNumber]);
  return (
    <main id="page" class="history">
      <h1>Service history of unit {data?.unit.unitNumber ?? unitNumber}</h1>
      {data === null ? (
        error === null ? (
          <Loading what="the history" />
        ) : (
          <ReadFault error={error} again={again} />
        )
      ) : (
        <>
          <form class="filters no-print" onSubmit={(event) => event.preventDefault()} aria-label="History">
            <button type="button" class="main" onClick={() => window.print()}>
              Print
            </button>
            <label class="history-tick">
              <input
                type="checkbox"
                checked={meters}
                onChange={(event) =>
                  route(`${place}/history${event.currentTarget.checked ? '?meters=yes' : ''}`, true)
                }
              />{' '}
              Meter readings too
            </label>
            <a href={place}>To unit {data.unit.unitNumber}</a>
          </form>
          <History document={data} meters={meters} demo={state.data?.store === 'demo'} />
        </>
      )}
    </main>
  );
}

function History({
  document: history,
  meters,
  demo,
}: {
  document: UnitHistoryDocument;
  meters: boolean;
  demo: boolean;
}) {
  const { measures } = useSettings();
  const { unit, engine, longestGap } = history;
  const entries = history.entries.filter(({ kind }) => meters || kind !== 'readings');
  const readings = history.entries.filter(({ kind }) => kind === 'readings').length;
  const known = (value: string | null): string => value ?? 'not known';
  return (
    <>
      {demo && <p class="sentence">Invented demo fleet: this is no record of a real unit.</p>}
      <dl class="facts">
        <dt>VIN</dt>
        <dd>{known(unit.vin)}</dd>
        <dt>Unit</dt>
        <dd>
          {[unit.description, unit.site, unit.duty].filter((part) => part !== null).join(', ') ||
            'not described'}
        </dd>
        <dt>In service</dt>
        <dd>
          {unit.inServiceOn === null ? 'since a day that is not known' : `since ${date(unit.inServiceOn)}`}
          {unit.inServiceOdometerKm !== null && `, at ${distance(unit.inServiceOdometerKm, measures)}`}
          {unit.disposedOn !== null && `; left on ${date(unit.disposedOn)}`}
        </dd>
        <dt>Engine</dt>
        <dd>
          {known(unit.engineFamily)}
          {engine !== null && engine.displacementL !== null && `, ${plain(engine.displacementL, 1)} L`}
          {engine !== null && engine.requiredGrade !== null && `, oil ${engine.requiredGrade}`}
          {engine !== null && engine.requiredCategory !== null && ` ${engine.requiredCategory}`}
        </dd>
        <dt>Maker’s interval</dt>
        <dd>
          {engine === null || engine.bookIntervalKm === null
            ? 'not known'
            : `${distance(engine.bookIntervalKm, measures)}${engine.bookIntervalMonths === null ? '' : ` or ${engine.bookIntervalMonths} months`}`}
        </dd>
        <dt>On record</dt>
        <dd>
          {counted(history.oilChanges, 'oil change')}; {counted(history.entries.length, 'dated record')}, as
          known on {date(history.asOf)}
          {longestGap !== null &&
            `; longest time without a record ${plain(longestGap.days)} days, ${date(longestGap.from)} to ${date(longestGap.to)}`}
        </dd>
      </dl>
      {entries.length === 0 ? (
        <p>There is no dated record of this unit yet.</p>
      ) : (
        <div class="table-frame" tabIndex={0} role="region" aria-label="Service history">
          <table class="stacking history-lines">
            <ColumnHeads
              titles={[
                'Day',
                'Odometer',
                'Engine hours',
                'What was done or found',
                'Oil',
                'Shop, order',
                'File, line',
              ]}
              numbers={['Odometer', 'Engine hours']}
            />
            <tbody>
              {entries.map((entry) => (
                <Line entry={entry} key={`${entry.source.kind} ${entry.source.id}`} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      <p class="muted">
        {!meters && readings > 0 && `${counted(readings, 'meter reading')} left out. `}
        Unit from {unit.source.file}, line {unit.source.line}
        {engine !== null && `; engine from ${engine.source.file}, line ${engine.source.line}`}. Each line
        shows the record as it came in, with its file and line; what is empty was not recorded. Newest record{' '}
        {history.entries.length === 0
          ? 'none'
          : fromNow(history.asOf, history.entries[history.entries.length - 1].on)}
        .
      </p>
    </>
  );
}

function Line({ entry }: { entry: HistoryEntry }) {
  const { measures } = useSettings();
  const jobs = entry.works.filter((work) => work !== 'other').map((work) => workWords[work]);
  const oil = [
    entry.oilGrade,
    entry.oilCategory,
    entry.oilL === null ? null : volume(entry.oilL, measures),
    entry.filterChanged === true ? 'filter changed' : null,
  ].filter((part) => part !== null);
  const since = [
    entry.sinceOilKm === null ? null : distance(entry.sinceOilKm, measures),
    entry.sinceOilDays === null ? null : `${plain(entry.sinceOilDays)} days`,
  ].filter((part) => part !== null);
  return (
    <tr>
      <td class="history-day">{date(entry.on)}</td>
      <td class="number" data-name="Odometer">
        {entry.odometerKm !== null && distance(entry.odometerKm, measures)}
      </td>
      <td class="number" data-name="Engine hours">
        {entry.engineHoursH !== null && hours(entry.engineHoursH)}
      </td>
      <td>
        {jobs.length > 0 && <strong>{jobs.join(', ')}. </strong>}
        {entry.words}
        {since.length > 0 && <span class="muted"> ({since.join(', ')} after the change before)</span>}
      </td>
      <td data-name="Oil">{oil.join(', ')}</td>
      <td data-name="Shop">{[entry.shop, entry.workOrder].filter((part) => part !== null).join(', ')}</td>
      <td class="history-source">
        {entry.source.file}, {entry.source.line}
      </td>
    </tr>
  );
}
