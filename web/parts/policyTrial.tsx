import { useMemo } from 'preact/hooks';
import type { PolicyTrialDocument } from '../../models/schema/policyTrial.ts';
import { changesChart } from '../charts/changesByMonth.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { date } from '../format/dates.ts';
import { distance, plain, rounded } from '../format/measures.ts';
import { inFutures, moneyRange, roundMoney } from '../format/money.ts';
import { counted } from '../format/words.ts';
import { useFleetState, useSettings } from './fleetState.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

/** Months that the chart shows. */
const monthsShown = 12;
type Range = PolicyTrialDocument['failuresAvoided'];

const counts = ({ low, mid, high }: Range): string =>
  `${plain(low, 1)} to ${plain(high, 1)}, about ${plain(mid, 1)}`;

/** What an interval would do to a duty group before anyone adopts it. */
export function PolicyTrial({ duty, intervalKm }: { readonly duty: string; readonly intervalKm: number }) {
  const state = useFleetState();
  const { data, error, again } = useRead<'policyTrial'>(
    '/api/policy/trial',
    { duty, intervalKm },
    state.data?.revision,
  );
  if (data === null)
    return error === null ? (
      <Loading what={`${duty} at this interval; four thousand futures are drawn`} />
    ) : (
      <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
    );
  return <Trial data={data} />;
}

function Trial({ data }: { readonly data: PolicyTrialDocument }) {
  const { measures } = useSettings();
  const { now, then, currency } = data;
  const configure = useMemo(() => changesChart(data, monthsShown), [data]);
  const sooner = data.dueDates.filter(({ days }) => days !== null && days < 0).length;
  const saving = data.savingCents;
  return (
    <>
      <p>
        Tried at <strong>{distance(data.intervalKm, measures)}</strong> over {data.months} months:{' '}
        {rounded(then.changesPerMonth.mid)} oil changes a month instead of {rounded(now.changesPerMonth.mid)};{' '}
        {saving.mid >= 0
          ? `about ${roundMoney(saving.mid, currency)} saved`
          : `about ${roundMoney(-saving.mid, currency)} more spent`}{' '}
        by its changes and failures together. It costs more than today in {inFutures(data.chanceOfLoss)}.{' '}
        {counted(data.dueDates.length, 'due date')} of {data.units} move{sooner > 0 && `, ${sooner} sooner`}.
      </p>
      <dl class="facts">
        <dt>Oil changes a month</dt>
        <dd>
          today {counts(now.changesPerMonth)}; tried {counts(then.changesPerMonth)}
        </dd>
        <dt>Changes cost</dt>
        <dd>
          today {moneyRange(now.changeCents, currency)}; tried {moneyRange(then.changeCents, currency)}
        </dd>
        <dt>Failures</dt>
        <dd>
          today {counts(now.failures)}; tried {counts(then.failures)}
        </dd>
        <dt>Failures cost</dt>
        <dd>
          today {moneyRange(now.failureCents, currency)}; tried {moneyRange(then.failureCents, currency)}
        </dd>
        <dt>Saving</dt>
        <dd>{moneyRange(saving, currency)}</dd>
      </dl>
      <ChartCanvas
        configure={configure}
        height={220}
        summary={`Oil changes in each of the next ${monthsShown} months, today and under the interval tried; in the first month ${rounded(now.byMonth[0].mid)} and ${rounded(then.byMonth[0].mid)}`}
      />
      {data.dueDates.length > 0 && (
        <details open={data.dueDates.length <= 12}>
          <summary>{counted(data.dueDates.length, 'due date')} that would move</summary>
          <ul>
            {data.dueDates.map(({ unitNumber, nowOn, thenOn, days }) => (
              <li key={unitNumber}>
                <a href={`/units/${encodeURIComponent(unitNumber)}`}>{unitNumber}</a>: from {date(nowOn)} to{' '}
                {date(thenOn)}
                {days !== null && `, ${counted(Math.abs(days), 'day')} ${days < 0 ? 'sooner' : 'later'}`}
              </li>
            ))}
          </ul>
        </details>
      )}
      <ul>
        {data.keepOwn.length > 0 && (
          <li>keep their own approved longer interval: {data.keepOwn.join(', ')}</li>
        )}
        {data.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
        <li>
          {plain(data.draws)} futures from seed {data.seed}, the same for both; ranges hold 8 of 10 futures
        </li>
      </ul>
    </>
  );
}
