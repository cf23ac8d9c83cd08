import { useEffect, useRef, useState } from 'preact/hooks';
import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { MoveCost, PlanVisit } from '../../models/schema/shopPlan.ts';
import { RequestError, write } from '../api.ts';
import { date } from '../format/dates.ts';
import { modelWords } from '../format/modelWords.ts';
import { money } from '../format/money.ts';
import { clockTime, dayWords, jobsOf } from '../format/planWords.ts';
import { Notice } from './notice.tsx';
import type { DropPlace } from './planWeek.tsx';

interface DetailProps {
  readonly answer: PlanAnswer;
  readonly visit: PlanVisit;
  /** which plan, and the stand that the page shows */
  readonly query: PlanQuery & { readonly stand: string };
  /** where it was dropped */
  readonly target: Pick<DropPlace, 'on' | 'bay' | 'technician'> | null;
  readonly onChanged: (words: string, stand: string) => void;
  readonly onClose: () => void;
}

const told = (error: unknown): string => (error instanceof RequestError ? error.message : String(error));

/** One visit of the plan: why then, lock, and a move with its cost before it is made. */
export function PlanVisitDetail({ answer, visit, query, target, onChanged, onClose }: DetailProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [on, setOn] = useState(target?.on ?? visit.on);
  const [bay, setBay] = useState(target?.bay ?? visit.bay ?? '');
  const [person, setPerson] = useState(target?.technician ?? visit.technician ?? '');
  const [worked, setWorked] = useState<{ at: string; cost: MoveCost } | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  // a cost holds for the place that it was worked out for
  const at = `${on}|${bay}|${person}`;
  const cost = worked?.at === at ? worked.cost : null;
  const { currency } = answer;
  const booking = answer.booked.find(({ planVisitId }) => planVisitId === visit.id);
  const bays = answer.sites.find(({ site }) => site === visit.site)?.bays ?? [];
  const people = [
    ...new Set(
      answer.plan.loads.flatMap(({ site, technician }) =>
        site === visit.site && technician !== null ? [technician] : [],
      ),
    ),
  ].sort();
  const elsewhere =
    on !== visit.on ||
    (bay !== '' && bay !== visit.bay) ||
    (person !== '' && person !== (visit.technician ?? ''));
  const to = {
    on,
    ...(visit.place === 'bay' && bay !== '' && bay !== visit.bay ? { bay } : {}),
    ...(visit.place === 'bay' && person !== '' && person !== visit.technician ? { technician: person } : {}),
  };
  const loan = answer.loans.find(({ visitId }) => visitId === visit.id);
  useEffect(() => heading.current?.focus(), []);
  useEffect(() => {
    setFault(null);
    if (!elsewhere || booking !== undefined || !/^\d{4}-\d{2}-\d{2}$/.test(on)) return undefined;
    let wanted = true;
    write<'planCostOfMove'>('/api/plan/cost-of-move', { ...query, visitId: visit.id, to })
      .then((result) => wanted && setWorked({ at, cost: result }))
      .catch((error: unknown) => wanted && setFault(told(error)));
    return () => {
      wanted = false;
    };
  }, [on, bay, person]);
  const send = async (work: () => Promise<PlanAnswer>, words: string): Promise<void> => {
    setBusy(true);
    setFault(null);
    try {
      const { plan, stand } = await work();
      const others = plan.differences.filter(({ visitId }) => visitId !== visit.id);
      onChanged([words, ...others.map((difference) => modelWords(`${difference.words}.`))].join(' '), stand);
    } catch (error) {
      setFault(told(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <section class="visit-detail" aria-label={`Visit of ${visit.unitNumber}`}>
      <h3 tabIndex={-1} ref={heading}>
        <a href={`/units/${encodeURIComponent(visit.unitNumber)}`}>{visit.unitNumber}</a>,{' '}
        {dayWords(visit.on)} {clockTime(visit.startMinute)}
      </h3>
      <p>
        {jobsOf(visit)}; due {date(visit.dueFrom)} to {date(visit.dueTo)};{' '}
        {visit.technician ?? 'nobody named'}; expected cost {money(visit.costCents, currency)}
        {visit.costParts.length > 0 &&
          ` (${visit.costParts.map(({ words, cents }) => `${words} ${money(cents, currency)}`).join(', ')})`}
        .
      </p>
      {loan !== undefined && (
        <p>
          {loan.loanUnit} stands in meanwhile, which saves {money(loan.savedCents, currency)} of downtime.
        </p>
      )}
      {booking === undefined ? (
        <>
          <p class="detail-buttons">
            <button
              type="button"
              disabled={busy}
              onClick={() =>
                void send(
                  () =>
                    write<'lockPlanned'>('/api/plan/lock', {
                      ...query,
                      visitId: visit.id,
                      locked: !visit.locked,
                    }),
                  `The visit of ${visit.unitNumber} is ${visit.locked ? 'free again' : 'locked'}.`,
                )
              }
            >
              {visit.locked ? 'Unlock' : 'Lock'}
            </button>
            <button type="button" onClick={onClose}>
              Close
            </button>
          </p>
          <form
            class="detail-move"
            onSubmit={(event) => {
              event.preventDefault();
              void send(
                () => write<'movePlanned'>('/api/plan/move', { ...query, visitId: visit.id, to }),
                `The visit of ${visit.unitNumber} is on ${dayWords(on)} and locked there.`,
              );
            }}
          >
            <label>
              Day
              <input type="date" value={on} required onInput={(event) => setOn(event.currentTarget.value)} />
            </label>
            {visit.place === 'bay' && (
              <label>
                Bay
                <select value={bay} onChange={(event) => setBay(event.currentTarget.value)}>
                  {bays.map((name) => (
                    <option key={name} value={name}>
                      {name}
                    </option>
                  ))}
                </select>
              </label>
            )}
            {visit.place === 'bay' && people.length > 0 && (
              <label>
                Technician
                <select value={person} onChange={(event) => setPerson(event.currentTarget.value)}>
                  {[...new Set([person, ...people])].map((name) => (
                    <option key={name} value={name}>
                      {name === '' ? 'nobody named' : name}
                    </option>
                  ))}
                </select>
              </label>
            )}
            <button type="submit" disabled={busy || cost?.possible !== true}>
              Move there
            </button>
          </form>
          <p role="status" class="move-cost" data-on={cost === null ? undefined : on}>
            {!elsewhere
              ? 'Choose another day, bay or technician: what the move costs is shown here first.'
              : cost === null
                ? fault === null && 'Working out what the move costs …'
                : cost.possible
                  ? costWords(cost, dayWords(on), currency)
                  : `Not possible on ${dayWords(on)}: ${cost.conflicts.join('; ')}.`}
          </p>
        </>
      ) : (
        <p>
          Booked as visit {booking.visit}: it is put off or taken back on the page{' '}
          <a href="/visits">Visits</a>.{' '}
          <button type="button" onClick={onClose}>
            Close
          </button>
        </p>
      )}
      {fault !== null && <Notice kind="fault" words={fault} />}
    </section>
  );
}

function costWords({ costCents, parts }: MoveCost, day: string, currency: string): string {
  if (parts.length === 0 || costCents === 0) return `The move to ${day} costs nothing.`;
  const each = parts.map(({ words, cents }) => `${words} ${money(cents, currency)}`).join(', ');
  return `The move to ${day} ${costCents > 0 ? 'costs' : 'saves'} ${money(Math.abs(costCents), currency)}: ${each}.`;
}
