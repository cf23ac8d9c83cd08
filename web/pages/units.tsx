import { useLocation } from 'preact-iso';
import { useEffect, useMemo } from 'preact/hooks';
import { calls, type UnitAssessment } from '../../models/schema/assessment.ts';
import { chanceWithRange } from '../format/chance.ts';
import { date } from '../format/dates.ts';
import { distance, percent, rounded } from '../format/measures.ts';
import { limitName } from '../format/words.ts';
import { AttentionFilters, filterFrom, matches, type AttentionFilter } from '../parts/attentionFilters.tsx';
import { CallMark } from '../parts/callMark.tsx';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading, Notice } from '../parts/notice.tsx';
import { Rollups } from '../parts/rollups.tsx';
import { useRead } from '../parts/useRead.ts';

type Order = (a: UnitAssessment, b: UnitAssessment) => number;

const orders: Readonly<Record<string, { title: string; by: Order }>> = {
  unit: { title: 'Unit', by: (a, b) => a.unitNumber.localeCompare(b.unitNumber, 'en', { numeric: true }) },
  call: { title: 'Call', by: (a, b) => calls.indexOf(a.call) - calls.indexOf(b.call) },
  odometer: { title: 'Odometer', by: (a, b) => (b.odometerKm ?? -1) - (a.odometerKm ?? -1) },
  idle: { title: 'Idle share', by: (a, b) => (b.duty.idleShare ?? -1) - (a.duty.idleShare ?? -1) },
  due: { title: 'Oil due', by: (a, b) => ((a.oil?.dueOn ?? '9999') < (b.oil?.dueOn ?? '9999') ? -1 : 1) },
  limit: {
    title: 'Governed by',
    by: (a, b) =>
      limitName(a.oil?.governingLimit ?? null).localeCompare(limitName(b.oil?.governingLimit ?? null)),
  },
  sludge: {
    title: 'Sludge (0 clean to 10)',
    by: (a, b) => (b.sludge?.index ?? -1) - (a.sludge?.index ?? -1),
  },
  chain: {
    title: 'Chain elongation',
    by: (a, b) => (b.chain?.elongationPercent ?? -1) - (a.chain?.elongationPercent ?? -1),
  },
  failure: {
    title: 'Timing failure this year',
    by: (a, b) => (b.failure?.probability ?? -1) - (a.failure?.probability ?? -1),
  },
};

/** Every unit in service, sortable and searchable. */
export function Units() {
  const state = useFleetState();
  const location = useLocation();
  const settings = useSettings();
  const fleet = useRead<'assessment'>('/api/assessment', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Units · Sumpwise';
  }, []);
  const filter = useMemo(() => filterFrom(location.query), [location.url]);
  const order = location.query.order in orders ? location.query.order : 'unit';
  const go = (change: Partial<AttentionFilter> & { order?: string }): void => {
    const words = Object.entries({ ...filter, order, ...change }).filter(
      ([, value]) => value !== '' && value !== null,
    );
    location.route(
      `/units?${new URLSearchParams(words.map(([name, value]) => [name, String(value)])).toString()}`,
      true,
    );
  };
  if (fleet.data === null)
    return (
      <main id="page">
        <h1>Units</h1>
        {fleet.error === null ? (
          <Loading what="the units" />
        ) : (
          <Notice kind="fault" words={fleet.error.message} action="Try again" onAction={fleet.again} />
        )}
      </main>
    );
  const listed = fleet.data.units.filter((unit) => matches(unit, filter)).sort(orders[order].by);
  return (
    <main id="page">
      <h1>Units</h1>
      {fleet.data.units.length === 0 ? (
        <Notice kind="hint" words="There are no units yet. Bring your records in on the page Intake." />
      ) : (
        <>
          <AttentionFilters fleet={fleet.data} filter={filter} choose={go} reasons={[]} />
          <p class="muted">
            {listed.length} of {fleet.data.units.length} units, as of {date(fleet.data.asOf)}. Ranges hold in
            4 of 5 cases.
          </p>
          <div class="table-frame" tabIndex={0} role="region" aria-label="Units">
            <table class="stacking">
              <thead>
                <tr>
                  {Object.entries(orders).map(([name, { title }]) => (
                    <th scope="col" key={name} aria-sort={order === name ? 'ascending' : undefined}>
                      <button type="button" onClick={() => go({ order: name })}>
                        {title}
                        {order === name ? ' ↓' : ''}
                      </button>
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {listed.map((unit) => (
                  <tr key={unit.unitNumber}>
                    <td>
                      <a href={`/units/${encodeURIComponent(unit.unitNumber)}`}>
                        <strong>{unit.unitNumber}</strong>
                      </a>{' '}
                      <span class="muted">
                        {[unit.site, unit.dutyName, unit.engineFamily]
                          .filter((word) => word !== null)
                          .join(', ')}
                      </span>
                    </td>
                    <td>
                      <CallMark call={unit.call} />
                    </td>
                    <td class="number" data-name="odometer">
                      {distance(unit.odometerKm, settings.measures)}
                    </td>
                    <td class="number" data-name="idle share">
                      {percent(unit.duty.idleShare)}
                      {unit.duty.inferred.includes('idleShare') && <span class="muted"> inferred</span>}
                    </td>
                    <td data-name="oil due">{date(unit.oil?.dueOn ?? null)}</td>
                    <td data-name="governed by">{limitName(unit.oil?.governingLimit ?? null)}</td>
                    <td class="number" data-name="sludge">
                      {unit.sludge === null
                        ? (unit.notKnown.sludge ?? 'not known')
                        : `${rounded(unit.sludge.low)} to ${rounded(unit.sludge.high)}`}
                    </td>
                    <td class="number" data-name="chain elongation">
                      {unit.chain === null
                        ? (unit.notKnown.chain ?? 'not known')
                        : `${rounded(unit.chain.low)} to ${rounded(unit.chain.high)} %`}
                    </td>
                    <td data-name="timing failure this year">
                      {unit.failure === null
                        ? (unit.notKnown.failure ?? 'not known')
                        : chanceWithRange(unit.failure.probability, unit.failure.low, unit.failure.high)}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p>
            <a href="/samples">Oil samples of the fleet against their limits</a>
          </p>
          <Rollups />
        </>
      )}
    </main>
  );
}
