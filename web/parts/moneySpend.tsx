import { useMemo, useState } from 'preact/hooks';
import type { SpendDocument, SpendKey } from '../../models/schema/spendDocument.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { spendChart } from '../charts/spendByMonth.ts';
import { date, monthName } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { money } from '../format/money.ts';
import { ColumnHeads } from './columnHeads.tsx';
import { useFleetState } from './fleetState.tsx';
import { Loading, Notice } from './notice.tsx';
import { useRead } from './useRead.ts';

/** Months that the chart and the table show; the sums are over all. */
const monthsShown = 24;
const groupWords: Readonly<Record<SpendKey, string>> = {
  month: `month, the last ${monthsShown}`,
  site: 'site',
  duty: 'duty',
  engineFamily: 'engine family',
};
const sums = ['oil', 'planned', 'unplanned', 'outcome not recorded', 'rows', 'of these without a cost'];
type Rows = SpendDocument['groups'][number]['rows'];

/** What stands under each of the {@link sums}. */
function cellsOf(row: Rows[number], currency: string): readonly string[] {
  const { oilCents, plannedCents, unplannedCents, unsaidCents, rows, withoutCost } = row;
  const spent = [oilCents, plannedCents, unplannedCents, unsaidCents];
  return [...spent.map((cents) => money(cents, currency)), plain(rows), plain(withoutCost)];
}

/** The last months, those in which nothing was spent too. */
function lastMonths(rows: Rows, asOf: string): Rows {
  const byName = new Map(rows.map((row) => [row.name, row]));
  const last = Number(asOf.slice(0, 4)) * 12 + Number(asOf.slice(5, 7)) - 1;
  return Array.from({ length: monthsShown }, (_, i) => {
    const month = last - monthsShown + 1 + i;
    const name = `${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}`;
    return (
      byName.get(name) ?? {
        name,
        rows: 0,
        oilCents: 0,
        plannedCents: 0,
        unplannedCents: 0,
        unsaidCents: 0,
        withoutCost: 0,
      }
    );
  });
}

function SpendTable({ rows, by, currency }: { rows: Rows; by: SpendKey; currency: string }) {
  return (
    <div class="table-frame" tabIndex={0} role="region" aria-label={`Spent by ${groupWords[by]}`}>
      <table class="stacking">
        <ColumnHeads titles={[groupWords[by], ...sums]} numbers={sums} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">{by === 'month' ? monthName(row.name) : row.name}</th>
              {cellsOf(row, currency).map((words, place) => (
                <td class="number" key={sums[place]} data-name={sums[place]}>
                  {words}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What was spent on oil, planned and unplanned work, so that a case can be checked against what happened. */
export function MoneySpend() {
  const state = useFleetState();
  const [by, setBy] = useState<SpendKey>('month');
  const { data, error, again } = useRead<'spend'>('/api/spend', {}, state.data?.revision);
  const all = data?.groups.find((group) => group.by === by)?.rows;
  const rows = useMemo(
    () => (data === null || all === undefined ? [] : by === 'month' ? lastMonths(all, data.asOf) : all),
    [data, by],
  );
  const months = useMemo(
    () => lastMonths(data?.groups.find((group) => group.by === 'month')?.rows ?? [], data?.asOf ?? '2000-01'),
    [data],
  );
  const configure = useMemo(() => spendChart(months, data?.currency ?? 'USD'), [months]);
  if (data === null)
    return error === null ? (
      <Loading what="what was spent" />
    ) : (
      <Notice kind="fault" words={error.message} action="Try again" onAction={again} />
    );
  const { total, currency } = data;
  if (total.rows === 0) return <p class="muted">{data.notes.join(' ')}</p>;
  return (
    <>
      <p>
        On record up to {date(data.asOf)}: oil {money(total.oilCents, currency)}, planned{' '}
        {money(total.plannedCents, currency)}, unplanned {money(total.unplannedCents, currency)}, outcome not
        recorded {money(total.unsaidCents, currency)}.
      </p>
      <ChartCanvas
        configure={configure}
        height={280}
        summary={`Spent by month over the last ${monthsShown} months; the table below has the sums`}
      />
      <ul>
        {data.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
        <li>
          paid by:{' '}
          {data.paidBy.map(({ name, costCents }) => `${name} ${money(costCents, currency)}`).join('; ')}
        </li>
      </ul>
      <div class="filters">
        <label>
          Sums by{' '}
          <select value={by} onChange={(event) => setBy(event.currentTarget.value as SpendKey)}>
            {Object.entries(groupWords).map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </select>
        </label>
      </div>
      <SpendTable rows={by === 'month' ? rows.toReversed() : rows} by={by} currency={currency} />
    </>
  );
}
