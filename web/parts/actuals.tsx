import { jobWords } from '../../models/cards/jobCard.ts';
import type { Answer } from '../api.ts';
import { date } from '../format/dates.ts';
import { plain, rounded } from '../format/measures.ts';
import { money } from '../format/money.ts';
import { counted } from '../format/words.ts';
import { useFleetState } from './fleetState.tsx';
import { Loading } from './notice.tsx';
import { LineTable } from './planTable.tsx';
import { ReadFault } from './readFault.tsx';
import { useRead } from './useRead.ts';

/** Planned against actual hours and cost of closed visits, and what later plans take from them. */
export function Actuals() {
  const state = useFleetState();
  const { data, error, again } = useRead<'actuals'>('/api/actuals', {}, state.data?.revision);
  return (
    <>
      <h2>Planned against actual</h2>
      {data === null ? (
        error === null ? (
          <Loading what="planned against actual" />
        ) : (
          <ReadFault error={error} again={again} />
        )
      ) : data.visits.length === 0 ? (
        <p>No job card is closed yet. What closed cards took in hours and money will stand here.</p>
      ) : (
        <Lines actuals={data} />
      )}
    </>
  );
}

const hours = (value: number | null): string => (value === null ? 'not noted' : `${plain(value, 2)} h`);

function Lines({ actuals: { visits, learned, currency } }: { actuals: Answer<'actuals'> }) {
  const both = visits.filter((visit) => visit.plannedHours !== null && visit.actualHours !== null);
  const sum = (of: (visit: (typeof both)[number]) => number | null): number =>
    both.reduce((total, visit) => total + (of(visit) ?? 0), 0);
  const cents = (value: number | null): string => (value === null ? 'not noted' : money(value, currency));
  return (
    <>
      <p class="sentence">
        {both.length === 0
          ? `${counted(visits.length, 'card is', 'cards are')} closed; none has both planned and actual hours.`
          : `${counted(both.length, 'closed visit')} took ${plain(
              sum(({ actualHours }) => actualHours),
              1,
            )} h; ${plain(
              sum(({ plannedHours }) => plannedHours),
              1,
            )} h were planned.`}
      </p>
      {learned.length > 0 && <h3>Hours that later plans take</h3>}
      {learned.length > 0 && (
        <LineTable
          label="Hours that later plans take"
          header={['Job', 'Closed visits', 'Of the catalog’s hours', 'Later plans take']}
          rows={learned.map((row) => ({
            key: row.job,
            cells: [
              jobWords[row.job],
              plain(row.visits, 1),
              `${plain(100 * row.low)} to ${plain(100 * row.high)} %`,
              `${rounded(100 * row.ratio, 3)} %`,
            ],
          }))}
        />
      )}
      <h3>Closed visits</h3>
      <LineTable
        label="Closed visits"
        header={['Day', 'Unit', 'Jobs', 'Planned', 'Actual', 'Planned cost', 'Actual cost']}
        rows={visits.map((visit) => ({
          key: String(visit.visit),
          cells: [
            <a href={`/card/${visit.visit}`}>{date(visit.on)}</a>,
            visit.unitNumber,
            visit.jobs.map((job) => jobWords[job]).join(', '),
            hours(visit.plannedHours),
            hours(visit.actualHours),
            visit.plannedCents === null ? 'not known' : cents(visit.plannedCents),
            cents(visit.actualCents),
          ],
        }))}
      />
    </>
  );
}
