import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import type { PlanVisit } from '../../models/schema/shopPlan.ts';
import { clockTime, dayWords, isHere, jobsOf, weekDays } from '../format/planWords.ts';
import { plain } from '../format/measures.ts';

/** A day and a bay or a technician that a visit was dropped on. */
export interface DropPlace {
  readonly visitId: string;
  readonly on: string;
  readonly site: string;
  readonly bay?: string;
  readonly technician?: string;
}

/** What a row of the week stands for. */
export type WeekRows = 'bay' | 'technician';

interface WeekProps {
  readonly answer: PlanAnswer;
  readonly week: string;
  /** the only day that is shown; null = the whole week */
  readonly day: string | null;
  readonly rowsBy: WeekRows;
  readonly site: string;
  readonly chosen: string | null;
  readonly onChoose: (visitId: string) => void;
  readonly onDrop: (place: DropPlace) => void;
  readonly onDay: (day: string | null) => void;
}

interface WeekRow {
  readonly site: string;
  /** bay or technician; null = outside shops and visits without one */
  readonly name: string | null;
}

const nameOn = (visit: PlanVisit, rowsBy: WeekRows): string | null =>
  visit.place === 'bay' ? visit[rowsBy] : null;

/** Bays, or the people who are at work or have a visit, and a row for what is done elsewhere. */
function rowsOf(
  { plan, sites }: PlanAnswer,
  rowsBy: WeekRows,
  site: string,
  days: readonly string[],
): WeekRow[] {
  return sites
    .filter((entry) => isHere(entry, site))
    .flatMap((entry): WeekRow[] => {
      const visits = plan.visits.filter((visit) => visit.site === entry.site);
      const people = plan.loads.flatMap(({ site: at, on, technician }) =>
        at === entry.site && technician !== null && days.includes(on) ? [technician] : [],
      );
      const named = rowsBy === 'bay' ? entry.bays : [...new Set(people)].sort();
      return [
        ...named.map((name) => ({ site: entry.site, name })),
        ...(visits.some((visit) => nameOn(visit, rowsBy) === null) ? [{ site: entry.site, name: null }] : []),
      ];
    });
}

const stands = (visit: PlanVisit, booked: ReadonlySet<string>): string =>
  booked.has(visit.id) ? 'booked' : visit.locked ? 'locked' : '';

function Block({
  visit,
  day,
  state,
  chosen,
  onChoose,
}: {
  readonly visit: PlanVisit;
  readonly day: string;
  readonly state: string;
  readonly chosen: boolean;
  readonly onChoose: (visitId: string) => void;
}) {
  return (
    <button
      type="button"
      class={`visit-block ${state === '' ? '' : 'visit-held'}`}
      aria-pressed={chosen}
      draggable={state !== 'booked'}
      onDragStart={(event) => event.dataTransfer?.setData('text/plain', visit.id)}
      onClick={() => onChoose(visit.id)}
    >
      <strong>{visit.unitNumber}</strong> {visit.on === day ? clockTime(visit.startMinute) : 'goes on'},{' '}
      {plain(visit.hours, 1)} h<span class="visit-jobs">{jobsOf(visit)}</span>
      {state !== '' && <span class="visit-state">{state}</span>}
    </button>
  );
}

/** One week, or one day of it: bays or people as rows and days as columns; on narrow screens a list by day. */
export function PlanWeek({
  answer,
  week,
  day: only,
  rowsBy,
  site,
  chosen,
  onChoose,
  onDrop,
  onDay,
}: WeekProps) {
  const { plan } = answer;
  const days = weekDays(plan, week, site).filter((day) => only === null || day === only);
  const booked = new Set(answer.booked.map(({ planVisitId }) => planVisitId));
  const rows = rowsOf(answer, rowsBy, site, days);
  const inCell = (row: WeekRow, day: string): PlanVisit[] =>
    plan.visits
      .filter(
        (visit) =>
          visit.site === row.site &&
          nameOn(visit, rowsBy) === row.name &&
          visit.on <= day &&
          visit.lastDay >= day,
      )
      .sort((a, b) => a.startMinute - b.startMinute);
  const block = (visit: PlanVisit, day: string) => (
    <Block
      key={visit.id}
      visit={visit}
      day={day}
      state={stands(visit, booked)}
      chosen={visit.id === chosen}
      onChoose={onChoose}
    />
  );
  if (days.length === 0) return <p class="muted">Nothing is open and nothing is planned in this week.</p>;
  return (
    <>
      <div class="table-frame week-grid" tabIndex={0} role="region" aria-label={`Week by ${rowsBy} and day`}>
        <table>
          <thead>
            <tr>
              <th scope="col">{rowsBy === 'bay' ? 'Bay' : 'Technician'}</th>
              {days.map((day) => (
                <th scope="col" key={day}>
                  <button
                    type="button"
                    class="day-name"
                    aria-pressed={only === day}
                    onClick={() => onDay(only === day ? null : day)}
                  >
                    {dayWords(day)}
                  </button>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={`${row.site} ${row.name}`}>
                <th scope="row">
                  {site === '' && <span class="muted">{row.site} </span>}
                  {row.name ?? 'elsewhere'}
                </th>
                {days.map((day) => (
                  <td
                    key={day}
                    onDragOver={(event) => event.preventDefault()}
                    onDrop={(event) => {
                      event.preventDefault();
                      const visitId = event.dataTransfer?.getData('text/plain') ?? '';
                      if (row.name !== null && visitId !== '')
                        onDrop({ visitId, on: day, site: row.site, [rowsBy]: row.name });
                    }}
                  >
                    {inCell(row, day).map((visit) => block(visit, day))}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div class="week-list">
        {days.map((day) => {
          const visits = rows.flatMap((row) => inCell(row, day));
          return (
            <section key={day}>
              <h3>{dayWords(day)}</h3>
              {visits.length === 0 ? (
                <p class="muted">No visit.</p>
              ) : (
                visits.map((visit) => (
                  <div key={visit.id}>
                    <span class="muted">
                      {visit.outsideShop ??
                        [visit.site, visit[rowsBy]].filter((part) => part !== null).join(', ')}
                    </span>
                    {block(visit, day)}
                  </div>
                ))
              )}
            </section>
          );
        })}
      </div>
    </>
  );
}
