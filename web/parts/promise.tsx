import { useMemo, useState } from 'preact/hooks';
import type { PromiseKept, PromiseMonth } from '../../models/schema/promise.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { promiseChart } from '../charts/promise.ts';
import { monthName } from '../format/dates.ts';
import { percent } from '../format/measures.ts';
import { counted } from '../format/words.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { useFleetState } from './fleetState.tsx';
import { Loading } from './notice.tsx';
import { ReadFault } from './readFault.tsx';
import { useRead } from './useRead.ts';

const total = (months: readonly PromiseMonth[], name: 'early' | 'onTime' | 'late'): number =>
  months.reduce((sum, month) => sum + month[name], 0);

const fallen = [
  { name: 'early', words: 'early' },
  { name: 'onTime', words: 'on time' },
  { name: 'late', words: 'late' },
] as const;
const fallenWords = fallen.map(({ words }) => words);

/** How well the shop keeps its own promise; read when it is opened. */
export function PromiseSection({ site }: { site: string }) {
  const state = useFleetState();
  const [wanted, setWanted] = useState(false);
  const { data, error, again } = useRead<'promise'>(wanted ? '/api/promise' : null, {}, state.data?.revision);
  return (
    <details class="promise" onToggle={(event) => setWanted(event.currentTarget.open)}>
      <summary>How well the oil changes keep to their due</summary>
      {wanted && data === null && error === null && <Loading what="the oil changes of the last year" />}
      {error !== null && data === null && <ReadFault error={error} again={again} />}
      {data !== null && <Kept kept={data} site={site} />}
    </details>
  );
}

function Kept({ kept, site }: { kept: PromiseKept; site: string }) {
  const months = useMemo(
    () => kept.months.filter((month) => site === '' || month.site === site),
    [kept, site],
  );
  const configure = useMemo(() => promiseChart(months, kept.tolerance), [months, kept]);
  const past = kept.pastDue.filter((unit) => site === '' || unit.site === site);
  const judged = total(months, 'early') + total(months, 'onTime') + total(months, 'late');
  if (judged === 0)
    return (
      <p>
        No oil change of the last 13 months has a recorded one before it, so none can be judged. Bring the
        service history in on the page Intake.
      </p>
    );
  const middle = past[Math.floor((past.length - 1) / 2)];
  return (
    <>
      <p>
        Of {counted(judged, 'oil change')} in the last 13 months, {percent(total(months, 'onTime') / judged)}{' '}
        came within {percent(kept.tolerance)} of the interval that suits the unit's own duty,{' '}
        {percent(total(months, 'late') / judged)} later and {percent(total(months, 'early') / judged)}{' '}
        earlier.{' '}
        {past.length === 0
          ? 'Nothing is past due now.'
          : `Past due now: ${counted(past.length, 'unit')}, the middle one by ${counted(middle.days, 'day')}, the longest (${past[0].unitNumber}) by ${counted(past[0].days, 'day')}.`}{' '}
        {kept.notJudged > 0 && (
          <span class="muted">{counted(kept.notJudged, 'change')} without a known beginning not judged.</span>
        )}
      </p>
      <ChartCanvas
        configure={configure}
        height={220}
        summary={`Oil changes by month: ${total(months, 'late')} late, ${total(months, 'onTime')} on time, ${total(months, 'early')} early.`}
      />
      <div class="table-frame" tabIndex={0} role="region" aria-label="Oil changes by site and month">
        <table class="stacking short-values">
          <ColumnHeads titles={['Month', 'Site', ...fallenWords]} numbers={fallenWords} />
          <tbody>
            {[...months].reverse().map((month) => (
              <tr key={`${month.month}${month.site}`}>
                <th scope="row">{monthName(month.month)}</th>
                <td data-name="site">{month.site}</td>
                {fallen.map(({ name, words }) => (
                  <td class="number" key={name} data-name={words}>
                    {month[name]}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
