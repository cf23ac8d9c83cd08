import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import { date, dayAndMonth } from '../format/dates.ts';
import { plain, volume } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { roundMoney } from '../format/money.ts';
import { isHere, itemWords } from '../format/planWords.ts';
import { useSettings } from './fleetState.tsx';
import { LineTable } from './planTable.tsx';

interface ListProps {
  readonly answer: PlanAnswer;
  readonly site: string;
}

/** What has no place, why, and what leaving it costs. */
export function PlanNotPlaced({ answer: { plan, currency }, site }: ListProps) {
  const jobs = plan.notPlaced.filter((job) => isHere(job, site) || job.code === 'no_site');
  if (jobs.length === 0) return <p>All that is due has a place.</p>;
  return (
    <LineTable
      label="Jobs without a place"
      header={['Unit', 'Job', 'Due about', 'Why it has no place', 'Leaving it costs']}
      numbers={['Leaving it costs']}
      rows={[...jobs]
        .sort((a, b) => b.costCents - a.costCents)
        .map((job) => ({
          key: job.jobId,
          cells: [
            <a href={`/units/${encodeURIComponent(job.unitNumber)}`}>{job.unitNumber}</a>,
            modelWords(job.words),
            date(job.dueOn),
            modelWords(job.reason),
            roundMoney(job.costCents, currency),
          ],
        }))}
    />
  );
}

/** What the weeks take from the shelves and what is to be ordered. */
export function PlanSupplies({ answer: { plan }, site }: ListProps) {
  const { measures } = useSettings();
  const rows = plan.supplies.filter((supply) => isHere(supply, site));
  if (rows.length === 0) return <p>The plan takes nothing from the shelves.</p>;
  const amount = (value: number, measure: 'l' | 'pieces'): string =>
    measure === 'l' ? volume(value, measures) : plain(value);
  return (
    <LineTable
      label="Supplies by week"
      header={['Week from', 'Site', 'Item', 'Needed', 'To order', 'Order by']}
      numbers={['Needed', 'To order']}
      rows={rows.map((row) => ({
        key: `${row.week} ${row.site} ${row.item}`,
        cells: [
          dayAndMonth(row.week),
          row.site,
          itemWords(row.item),
          amount(row.quantity, row.measure),
          row.toOrder > 0 ? amount(row.toOrder, row.measure) : 'on the shelf',
          row.orderBy === null ? '' : date(row.orderBy),
        ],
      }))}
    />
  );
}

/** Days in the shop by site and week. */
export function PlanDowntime({ answer: { plan, currency }, site }: ListProps) {
  const rows = plan.downtime.filter((entry) => isHere(entry, site));
  if (rows.length === 0) return <p>No unit is away.</p>;
  return (
    <LineTable
      label="Downtime by site and week"
      header={['Site', 'Week from', 'Days away', 'Costs']}
      numbers={['Days away', 'Costs']}
      rows={rows.map((row) => ({
        key: `${row.site} ${row.week}`,
        cells: [row.site, dayAndMonth(row.week), plain(row.days, 1), roundMoney(row.cents, currency)],
      }))}
    />
  );
}
