import { useLocation } from 'preact-iso';
import { useEffect } from 'preact/hooks';
import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { date } from '../format/dates.ts';
import { volume } from '../format/measures.ts';
import { isHere } from '../format/planWords.ts';
import { counted } from '../format/words.ts';
import { useFleetState, useSettings } from '../parts/fleetState.tsx';
import { Loading } from '../parts/notice.tsx';
import { SiteChoice, siteIn, WeeksChoice } from '../parts/planFilters.tsx';
import { PlanSupplies } from '../parts/planLists.tsx';
import { Shelves } from '../parts/shelves.tsx';
import { ReadFault } from '../parts/readFault.tsx';
import { ShopLinks } from '../parts/shopLinks.tsx';
import { usePlan } from '../parts/usePlan.ts';
import '../styles/shop.css';
import '../styles/records.css';

/** What is to be ordered by week, what the shelves hold, and what went on and off them. */
export function SuppliesPage() {
  const state = useFleetState();
  const { measures } = useSettings();
  const location = useLocation();
  const weeks = Number(location.query.weeks) || 8;
  const { data, error, working, again } = usePlan(weeks, state.data?.revision);
  useEffect(() => {
    document.title = 'Orders and shelves · Sumpwise';
  }, []);
  const site = siteIn(data?.sites ?? [], location.query.site);
  const go = (change: Record<string, string>): void =>
    location.route(
      `/shop/supplies?${new URLSearchParams({ weeks: String(weeks), site, ...change }).toString()}`,
      true,
    );
  return (
    <main id="page">
      <h1>Orders and shelves</h1>
      <ShopLinks at="/shop/supplies" />
      {error !== null && <ReadFault error={error} again={again} />}
      {data === null && working !== null && <Loading what={`the plan's supplies${working}`} />}
      {data !== null && (
        <>
          <p class="sentence">{orderSentence(data, site, measures)}</p>
          <div class="plan-filters no-print">
            <SiteChoice sites={data.sites} site={site} choose={(named) => go({ site: named })} />
            <WeeksChoice weeks={weeks} choose={(ahead) => go({ weeks: ahead })} />
            <button type="button" onClick={() => window.print()}>
              Print
            </button>
          </div>
          <h2>Needed and to order by week</h2>
          <PlanSupplies answer={data} site={site} />
          <p class="no-print">
            To keep: <a href={`/api/plan/supplies.csv?weeks=${weeks}`}>CSV</a>,{' '}
            <a href={`/api/plan/supplies.xlsx?weeks=${weeks}`}>workbook (XLSX)</a>. Both hold every site.
          </p>
          <Shelves
            site={site}
            sites={data.sites.map((entry) => entry.site)}
            currency={data.currency}
            onChanged={again}
          />
        </>
      )}
    </main>
  );
}

/** A grade that is not broken at its hyphen. */
const inOneLine = (grade: string): string => grade.replace('-', '-\u2060');

/** Oil by grade, what must be ordered, and the first day to do so. */
function orderSentence({ plan }: PlanAnswer, site: string, measures: Settings['measures']): string {
  const rows = plan.supplies.filter((row) => isHere(row, site));
  if (rows.length === 0) return `The next ${counted(plan.weeks, 'week')} take nothing from the shelves.`;
  const grades = new Map<string, number>();
  for (const row of rows)
    if (row.kind === 'oil') grades.set(row.item, (grades.get(row.item) ?? 0) + row.quantity);
  const oil = [...grades].map(
    ([item, liters]) => `${volume(Math.round(liters), measures)} of ${inOneLine(item.replace(/^oil /, ''))}`,
  );
  const orders = rows.filter(({ toOrder }) => toOrder > 0);
  const first = orders
    .flatMap(({ orderBy }) => orderBy ?? [])
    .sort()
    .at(0);
  return [
    `The next ${counted(plan.weeks, 'week')} take ${oil.length === 0 ? 'no oil' : oil.join(', ')}.`,
    orders.length === 0
      ? 'The shelves cover all of it.'
      : `${counted(orders.length, 'line is', 'lines are')} to be ordered${first === undefined ? '' : first < plan.asOf ? `; the first should have been ordered by ${date(first)}` : `, the first by ${date(first)}`}.`,
  ].join(' ');
}
