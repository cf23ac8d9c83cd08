import { useLocation } from 'preact-iso';
import { useEffect, useMemo } from 'preact/hooks';
import { horizonWords } from '../../models/decisions/chanceWords.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { byCall, placeable, rangeWords, wearMap } from '../charts/wearMap.ts';
import { oneIn } from '../format/chance.ts';
import { date } from '../format/dates.ts';
import { rounded } from '../format/measures.ts';
import { counted } from '../format/words.ts';
import { CallMark } from '../parts/callMark.tsx';
import { useFleetState } from '../parts/fleetState.tsx';
import { Loading, Notice, toIntake } from '../parts/notice.tsx';
import { useRead } from '../parts/useRead.ts';

/** The fleet's wear in one picture: sludge against chain elongation, size by the chance of failure, shape by call. */
export function WearMapPage() {
  const state = useFleetState();
  const { query, route } = useLocation();
  const fleet = useRead<'assessment'>('/api/assessment', {}, state.data?.revision);
  useEffect(() => {
    document.title = 'Wear map · Sumpwise';
  }, []);
  const family = query.family ?? '';
  const shown = useMemo(
    () => (fleet.data?.units ?? []).filter((unit) => family === '' || unit.engineFamily === family),
    [fleet.data, family],
  );
  const { mapped, left } = useMemo(() => placeable(shown), [shown]);
  const chosen = mapped.find(({ unitNumber }) => unitNumber === query.unit) ?? null;
  const configure = useMemo(() => wearMap(mapped, chosen), [mapped, chosen]);
  const groups = useMemo(() => byCall(mapped), [mapped]);
  const go = (change: Record<string, string>): void =>
    route(`/wear?${new URLSearchParams({ family, unit: query.unit ?? '', ...change }).toString()}`, true);
  const open = (unitNumber: string): void => route(`/units/${encodeURIComponent(unitNumber)}`);
  if (fleet.data === null)
    return (
      <main id="page">
        <h1>Wear map</h1>
        {fleet.error === null ? (
          <Loading what="the units" />
        ) : (
          <Notice kind="fault" words={fleet.error.message} action="Try again" onAction={fleet.again} />
        )}
      </main>
    );
  const chanceTitle = `Timing failure ${horizonWords(fleet.data.horizonDays)}`;
  const families = [...new Set(fleet.data.units.map((unit) => unit.engineFamily))].filter(
    (name) => name !== null,
  );
  return (
    <main id="page">
      <h1>Wear map</h1>
      <p class="sentence">
        {counted(mapped.length, 'unit')} with sludge and chain known
        {left.length > 0 && `; ${left.reduce((sum, [, count]) => sum + count, 0)} not shown`}.
      </p>
      {left.length > 0 && (
        <ul aria-label="Not shown">
          {left.map(([reason, count]) => (
            <li key={reason}>
              {counted(count, 'unit')}: {reason}
            </li>
          ))}
        </ul>
      )}
      <div class="filters">
        <label>
          Engine family{' '}
          <select value={family} onChange={(event) => go({ family: event.currentTarget.value })}>
            <option value="">all</option>
            {families.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          Ranges of unit{' '}
          <select
            value={chosen?.unitNumber ?? ''}
            onChange={(event) => go({ unit: event.currentTarget.value })}
          >
            <option value="">none</option>
            {mapped.map(({ unitNumber }) => (
              <option key={unitNumber} value={unitNumber}>
                {unitNumber}
              </option>
            ))}
          </select>
        </label>
      </div>
      {chosen !== null && (
        <p>
          <CallMark call={chosen.call} />{' '}
          <a href={`/units/${encodeURIComponent(chosen.unitNumber)}`}>Unit {chosen.unitNumber}</a>:{' '}
          {rangeWords(chosen)}.
        </p>
      )}
      {mapped.length === 0 ? (
        <Notice
          kind="hint"
          words="No unit can be placed yet. Bring in engine families and service history."
          to={toIntake}
        />
      ) : (
        <>
          <ChartCanvas
            configure={configure}
            height={520}
            summary={`Sludge against chain elongation of ${mapped.length} units; the table below says the same`}
            onPick={(index, dataset) => {
              const unit = groups[dataset]?.[1][index];
              if (unit !== undefined) open(unit.unitNumber);
            }}
          />
          <p class="muted">
            Points are most likely values as of {date(fleet.data.asOf)}; the larger, the likelier a timing
            failure. A click opens the unit. Bars are the range of the chosen unit and hold in 4 of 5 cases.
          </p>
          <details>
            <summary>The same as a table</summary>
            <div class="table-frame" tabIndex={0} role="region" aria-label="Wear map as a table">
              <table class="stacking">
                <thead>
                  <tr>
                    <th scope="col">Unit</th>
                    <th scope="col">Call</th>
                    <th scope="col">Sludge (0 clean to 10)</th>
                    <th scope="col">Chain elongation</th>
                    <th scope="col">{chanceTitle}</th>
                  </tr>
                </thead>
                <tbody>
                  {[...mapped]
                    .sort((a, b) => b.sludge.index - a.sludge.index)
                    .map((unit) => (
                      <tr key={unit.unitNumber}>
                        <td>
                          <a href={`/units/${encodeURIComponent(unit.unitNumber)}`}>{unit.unitNumber}</a>
                        </td>
                        <td>
                          <CallMark call={unit.call} />
                        </td>
                        <td data-name="sludge">
                          {rounded(unit.sludge.low)} to {rounded(unit.sludge.high)}, most likely{' '}
                          {rounded(unit.sludge.index)}
                        </td>
                        <td data-name="chain elongation">
                          {rounded(unit.chain.low)} to {rounded(unit.chain.high)} %, most likely{' '}
                          {rounded(unit.chain.elongationPercent)} %
                        </td>
                        <td data-name={chanceTitle}>
                          {unit.failureProbability === null ? 'not known' : oneIn(unit.failureProbability)}
                        </td>
                      </tr>
                    ))}
                </tbody>
              </table>
            </div>
          </details>
        </>
      )}
    </main>
  );
}
