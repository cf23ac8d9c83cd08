import { useLocation } from 'preact-iso';
import { useEffect, useMemo } from 'preact/hooks';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import { ChartCanvas } from '../charts/chart.tsx';
import { frontierChart } from '../charts/frontier.ts';
import { tornadoChart } from '../charts/tornado.ts';
import { unplannedChart } from '../charts/unplannedSpend.ts';
import { date } from '../format/dates.ts';
import { plain } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { inFutures, money, roundMoney } from '../format/money.ts';
import { counted } from '../format/words.ts';
import { useFleetState } from '../parts/fleetState.tsx';
import { MoneyCheck } from '../parts/moneyCheck.tsx';
import { MoneyForm, type MoneyQuery } from '../parts/moneyForm.tsx';
import { MoneyLeftAlone, MoneyLines } from '../parts/moneyLines.tsx';
import { MoneyPolicy } from '../parts/moneyPolicy.tsx';
import { MoneySpend } from '../parts/moneySpend.tsx';
import { MoneyStatement } from '../parts/moneyStatement.tsx';
import { Loading, Notice, toIntake } from '../parts/notice.tsx';
import { PageTerms } from '../parts/term.tsx';
import { useBudget } from '../parts/useBudget.ts';
import '../styles/money.css';

/** Two budgets side by side. */
function Compared({ one, other }: { readonly one: BudgetDocument; readonly other: BudgetDocument }) {
  const rows: readonly (readonly [string, (data: BudgetDocument) => string])[] = [
    ['takes', (data) => money(data.spentCents, data.currency)],
    ['units', (data) => String(data.chosen.length)],
    [
      'failures avoided',
      ({ failuresAvoided: f }) => `${plain(f.low, 1)} to ${plain(f.high, 1)}, about ${plain(f.mid, 1)}`,
    ],
    ['saving', (data) => `about ${roundMoney(data.savingCents.mid, data.currency)}`],
    ['loses money in', (data) => inFutures(data.chanceOfLoss)],
    ['failures cost, 9 of 10 futures below', (data) => roundMoney(data.unplannedCents.p90, data.currency)],
  ];
  return (
    <div class="table-frame" tabIndex={0} role="region" aria-label="Two budgets side by side">
      <table>
        <thead>
          <tr>
            <th scope="col">Side by side</th>
            <th scope="col">{money(one.amountCents, one.currency)}</th>
            <th scope="col">{money(other.amountCents, other.currency)}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([words, text]) => (
            <tr key={words}>
              <th scope="row">{words}</th>
              <td>{text(one)}</td>
              <td>{text(other)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const asQuery = (query: MoneyQuery): string => new URLSearchParams(query).toString();

/** The three charts of a case. */
function Charts({ data }: { readonly data: BudgetDocument }) {
  const { currency } = data;
  const frontier = useMemo(() => frontierChart(data.levels, data.amountCents, currency), [data]);
  const spend = useMemo(() => unplannedChart(data.byMonth, currency), [data]);
  const tornado = useMemo(
    () =>
      tornadoChart(
        data.tornado,
        data.chosen.reduce((sum, line) => sum + line.netCents, 0),
        currency,
      ),
    [data],
  );
  return (
    <>
      <h2>Money against failures avoided</h2>
      <ChartCanvas
        configure={frontier}
        height={280}
        summary={`All that is worth doing takes ${money(data.worthwhileCents, currency)}; this amount is marked`}
      />
      <h2>Spend over the months</h2>
      <ChartCanvas
        configure={spend}
        height={280}
        summary={`Failures cost about ${roundMoney(data.unplannedWithoutCents.mid, currency)} when all is run and ${roundMoney(data.unplannedCents.mid, currency)} under the plan`}
      />
      {data.chosen.length > 0 && (
        <>
          <h2>What the saving hangs on</h2>
          <ChartCanvas
            configure={tornado}
            height={240}
            summary={data.tornado
              .map(
                (bar) =>
                  `${bar.words}: ${roundMoney(bar.atLowCents, currency)} to ${roundMoney(bar.atHighCents, currency)}`,
              )
              .join('; ')}
          />
        </>
      )}
    </>
  );
}

/** How much, for which units, what if not; and how often to change the oil. */
export function MoneyPage() {
  const state = useFleetState();
  const location = useLocation();
  useEffect(() => {
    document.title = 'Money · Sumpwise';
  }, []);
  const query: MoneyQuery = { amount: '20000', months: '24', ...location.query };
  const { against, ...asked } = query;
  const { data, working, error, again } = useBudget(asked, state.data?.revision);
  const other = useBudget(against === undefined ? null : { ...asked, amount: against }, state.data?.revision);
  return (
    <main id="page">
      <h1>Money</h1>
      <div class="money-columns">
        <div class="money-result" aria-busy={working !== null}>
          {error !== null && <Notice kind="fault" words={error} action="Try again" onAction={again} />}
          {working !== null && data === null && <Loading what={`the budget case: ${working}`} />}
          {data !== null &&
            (data.units === 0 ? (
              <Notice
                kind="hint"
                words="There are no units yet, so there is nothing to plan for. Bring your records in."
                to={toIntake}
              />
            ) : (
              <MoneyStatement data={data} />
            ))}
        </div>
        <MoneyForm
          key={JSON.stringify(query)}
          query={query}
          data={data}
          working={working}
          onAsk={(words) => location.route(`/money?${new URLSearchParams(words).toString()}`)}
        />
      </div>
      {data !== null && other.data !== null && <Compared one={data} other={other.data} />}
      {other.working !== null && <Loading what={`the other amount: ${other.working}`} />}
      {other.error !== null && (
        <Notice kind="fault" words={other.error} action="Try again" onAction={other.again} />
      )}
      {data !== null && data.units > 0 && (
        <>
          <p>
            To hand on: <a href={`/api/budget.pdf?${asQuery(asked)}`}>report (PDF)</a>,{' '}
            <a href={`/api/budget.xlsx?${asQuery(asked)}`}>workbook (XLSX)</a>
          </p>
          <h2>What the money buys</h2>
          <MoneyLines data={data} />
          <Charts data={data} />
          <h2>Left alone</h2>
          <MoneyLeftAlone data={data} />
          {data.filledCosts.length > 0 && (
            <>
              <h2>Costs that are not recorded</h2>
              <ul>
                {data.filledCosts.map(({ words, units }) => (
                  <li key={words}>
                    {modelWords(words)} ({counted(units, 'unit')})
                  </li>
                ))}
              </ul>
            </>
          )}
          <p class="age">
            {plain(data.units)} units, {plain(data.records)} records, the newest of{' '}
            {date(data.newestRecordOn)}; model {data.modelVersion}; {plain(data.draws)} futures drawn by
            number {data.seed}; ranges hold 8 of 10 futures. Decision support: the maker's schedule, warranty
            terms and a licensed technician come first.
          </p>
        </>
      )}
      <h2>How often to change the oil</h2>
      <MoneyPolicy />
      <h2>What was spent</h2>
      <MoneySpend />
      <h2>What was said a year ago</h2>
      <MoneyCheck query={asked} />
      <PageTerms ids={['run_to_failure', 'drain_interval', 'chance', 'range']} />
    </main>
  );
}
