import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import type { PlanVisit } from '../../models/schema/shopPlan.ts';
import { clockTime, dayWords, isHere, jobsOf, weekDays } from '../format/planWords.ts';
import { plain } from '../format/measures.ts';

/** A day and a bay that a visit was dropped on. */
export interface DropPlace {
  readonly visitId: string;
  readonly on: string;
  readonly site: string;
  readonly bay: string;
}

interface WeekProps {
  readonly answer: PlanAnswer;
  readonly week: string;
  readonly site: string;
  readonly chosen: string | null;
  readonly onChoose: (visitId: string) => void;
  readonly onDrop: (place: DropPlace) => void;
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

/** One week: bays as rows and days as columns; on narrow screens a list by day. */
export function PlanWeek({ answer, week, site, chosen, onChoose, onDrop }: WeekProps) {
  const { plan } = answer;
  const days = weekDays(plan, week, site);
  const booked = new Set(answer.booked.map(({ planVisitId }) => planVisitId));
  const rows = answer.sites
    .filter((entry) => isHere(entry, site))
    .flatMap((entry) => [
      ...entry.bays.map((bay) => ({ site: entry.site, bay: bay as string | null })),
      ...(plan.visits.some((visit) => visit.site === entry.site && visit.place !== 'bay')
        ? [{ site: entry.site, bay: null }]
        : []),
    ]);
  const inCell = (row: (typeof rows)[number], day: string): PlanVisit[] =>
    plan.visits
      .filter(
        (visit) =>
          visit.site === row.site &&
          (row.bay === null ? visit.place !== 'bay' : visit.bay === row.bay) &&
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
      <div class="table-frame week-grid" tabIndex={0} role="region" aria-label="Week by bay and day">
        <table>
          <thead>
            <tr>
              <th scope="col">Bay</th>
              {days.map((day) => (
                <th scope="col" key={day}>
                  {dayWords(day)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={`${row.site} ${row.bay}`}>
                <th scope="row">
                  {site === '' && <span class="muted">{row.site} </span>}
                  {row.bay ?? 'outside'}
                </th>
                {days.map((day) => (
                  <td
                    key={day}
                    onDragOver={(event) => event.preventDefault()}
                    onDrop={(event) => {
                      event.preventDefault();
                      const visitId = event.dataTransfer?.getData('text/plain') ?? '';
                      if (row.bay !== null && visitId !== '')
                        onDrop({ visitId, on: day, site: row.site, bay: row.bay });
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
                        [visit.site, visit.bay].filter((part) => part !== null).join(', ')}
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
