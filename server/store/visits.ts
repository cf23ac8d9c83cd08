import type { CardClosing } from '../../models/schema/jobCard.ts';
import type { ShopJob } from '../../models/schema/shopPlan.ts';
import type { Visit, VisitMove, VisitState } from '../../models/schema/visit.ts';
import type { Store } from './openStore.ts';

interface VisitRow {
  readonly id: number;
  readonly plan_visit_id: string | null;
  readonly unit_number: string;
  readonly site: string | null;
  readonly place: Visit['place'];
  readonly outside_shop: string | null;
  readonly bay: string | null;
  readonly technician: string | null;
  readonly on_day: string;
  readonly last_day: string;
  readonly start_minute: number | null;
  readonly end_minute: number | null;
  readonly starts_at: string | null;
  readonly ends_at: string | null;
  readonly jobs: string;
  readonly state: VisitState;
  readonly version: number;
  readonly planned_hours: number | null;
  readonly planned_cents: number | null;
  readonly actual_hours: number | null;
  readonly actual_cents: number | null;
  readonly batch_id: number | null;
  readonly card: string | null;
  readonly cancelled: number;
  readonly times_put_off: number;
  readonly taken_back: number;
  readonly asked_because: string | null;
}

/** A visit as the store writes it: what can change, without what is counted. */
export type VisitFields = Omit<Visit, 'id' | 'version' | 'timesPutOff' | 'batchTakenBack' | 'askedBecause'>;

/** What is noted with a change. */
export type NewMove = Omit<VisitMove, 'version' | 'from' | 'to' | 'undone'>;

/** Someone else changed the visit first. */
export class VisitConflict extends Error {
  readonly now: Visit;
  readonly changes: readonly VisitMove[];

  constructor(now: Visit, changes: readonly VisitMove[]) {
    super(
      `This visit was changed in the meantime: ${changes.map(({ by, words }) => `${words} (${by})`).join('; ')}. Look at it again, then repeat your change.`,
    );
    this.now = now;
    this.changes = changes;
  }
}

const select = `SELECT v.*,
  (SELECT count(*) FROM visit_move m WHERE m.visit_id = v.id AND m.to_state = 'put_off'
    AND m.reason IS NOT NULL AND m.undone = 0) AS times_put_off,
  (SELECT count(*) FROM batch b WHERE b.id = v.batch_id AND b.undone_at IS NOT NULL) AS taken_back,
  (SELECT m.reason FROM visit_move m WHERE m.visit_id = v.id AND m.version = 1) AS asked_because
  FROM visit v`;

const visitOf = (row: VisitRow): Visit => ({
  id: row.id,
  planVisitId: row.plan_visit_id,
  unitNumber: row.unit_number,
  site: row.site,
  place: row.place,
  outsideShop: row.outside_shop,
  bay: row.bay,
  technician: row.technician,
  on: row.on_day,
  lastDay: row.last_day,
  startMinute: row.start_minute,
  endMinute: row.end_minute,
  startsAt: row.starts_at,
  endsAt: row.ends_at,
  jobs: JSON.parse(row.jobs) as ShopJob[],
  state: row.state,
  version: row.version,
  timesPutOff: row.times_put_off,
  plannedHours: row.planned_hours,
  plannedCents: row.planned_cents,
  actualHours: row.actual_hours,
  actualCents: row.actual_cents,
  askedBecause: row.asked_because,
  batch: row.batch_id === null ? null : String(row.batch_id),
  batchTakenBack: row.taken_back > 0,
});

/** What narrows a list of visits; null = all. */
export interface VisitFilter {
  readonly site?: string | undefined;
  readonly unit?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly state?: VisitState | undefined;
}

/** Visits in order of day; taken-back requests are left out. */
export function listVisits(store: Store, filter: VisitFilter = {}): Visit[] {
  const rows = store.sqlite
    .prepare(
      `${select} WHERE v.cancelled = 0 AND (@site IS NULL OR v.site = @site COLLATE NOCASE)
       AND (@unit IS NULL OR v.unit_number = @unit COLLATE NOCASE) AND (@from IS NULL OR v.last_day >= @from)
       AND (@to IS NULL OR v.on_day <= @to) AND (@state IS NULL OR v.state = @state)
       ORDER BY v.on_day, v.start_minute, v.id`,
    )
    .all({
      site: filter.site ?? null,
      unit: filter.unit ?? null,
      from: filter.from ?? null,
      to: filter.to ?? null,
      state: filter.state ?? null,
    }) as VisitRow[];
  return rows.map(visitOf);
}

/** One visit, or null when there is none of that number. */
export function findVisit(store: Store, id: number): Visit | null {
  const row = store.sqlite.prepare(`${select} WHERE v.id = ? AND v.cancelled = 0`).get(id) as
    VisitRow | undefined;
  return row === undefined ? null : visitOf(row);
}

/** The closed card of a visit as it was sent, or null. */
export function cardOfVisit(store: Store, id: number): CardClosing | null {
  const text = store.sqlite.prepare('SELECT card FROM visit WHERE id = ?').pluck().get(id) as
    string | null | undefined;
  return text === null || text === undefined ? null : (JSON.parse(text) as CardClosing);
}

interface MoveRow extends Omit<VisitMove, 'undone'> {
  readonly undone: number;
}

/** Every change of a visit, newest first. */
export function movesOfVisit(store: Store, id: number, afterVersion = 0): VisitMove[] {
  const rows = store.sqlite
    .prepare(
      `SELECT version, from_state AS "from", to_state AS "to", moved_at AS at, moved_by AS by, reason, approver,
       manager, new_date AS newDate, risk, undone, words FROM visit_move WHERE visit_id = ? AND version > ?
       ORDER BY version DESC`,
    )
    .all(id, afterVersion) as MoveRow[];
  return rows.map((row) => ({ ...row, undone: row.undone === 1 }));
}

const columnValues = (visit: VisitFields): Record<string, unknown> => ({
  planVisitId: visit.planVisitId,
  unitNumber: visit.unitNumber,
  site: visit.site,
  place: visit.place,
  outsideShop: visit.outsideShop,
  bay: visit.bay,
  technician: visit.technician,
  on: visit.on,
  lastDay: visit.lastDay < visit.on ? visit.on : visit.lastDay,
  startMinute: visit.startMinute,
  endMinute: visit.endMinute,
  startsAt: visit.startsAt,
  endsAt: visit.endsAt,
  jobs: JSON.stringify(visit.jobs),
  state: visit.state,
  plannedHours: visit.plannedHours,
  plannedCents: visit.plannedCents,
  actualHours: visit.actualHours,
  actualCents: visit.actualCents,
  batch: visit.batch === null ? null : Number(visit.batch),
});

function noteMove(
  store: Store,
  visitId: number,
  version: number,
  states: { from: VisitState | null; to: VisitState },
  move: NewMove,
  before: string | null,
): void {
  store.sqlite
    .prepare(
      `INSERT INTO visit_move (visit_id, version, from_state, to_state, moved_at, moved_by, reason, approver, manager,
       new_date, risk, words, before)
       VALUES (@visitId, @version, @from, @to, @at, @by, @reason, @approver, @manager, @newDate, @risk, @words, @before)`,
    )
    .run({ visitId, version, ...states, ...move, before });
}

/** Writes a new visit down, with its first note. */
export function addVisit(store: Store, visit: VisitFields, move: NewMove): Visit {
  return store.sqlite.transaction(() => {
    const { lastInsertRowid } = store.sqlite
      .prepare(
        `INSERT INTO visit (plan_visit_id, unit_number, site, place, outside_shop, bay, technician, on_day, last_day,
         start_minute, end_minute, starts_at, ends_at, jobs, state, version, planned_hours, planned_cents, actual_hours,
         actual_cents, batch_id)
         VALUES (@planVisitId, @unitNumber, @site, @place, @outsideShop, @bay, @technician, @on, @lastDay, @startMinute,
         @endMinute, @startsAt, @endsAt, @jobs, @state, 1, @plannedHours, @plannedCents, @actualHours, @actualCents,
         @batch)`,
      )
      .run(columnValues(visit));
    const id = Number(lastInsertRowid);
    noteMove(store, id, 1, { from: null, to: visit.state }, move, null);
    return findVisit(store, id) as Visit;
  })();
}

/**
 * Changes a visit, if it still stands at the version that the writer saw.
 * @throws VisitConflict when someone changed it before
 */
export function changeVisit(
  store: Store,
  seen: { readonly id: number; readonly version: number },
  changes: Partial<VisitFields> & { readonly card?: CardClosing | null },
  move: NewMove,
): Visit {
  return store.sqlite.transaction(() => {
    const now = findVisit(store, seen.id);
    if (now === null) throw new Error(`visit must exist, got ${seen.id}`);
    if (now.version !== seen.version)
      throw new VisitConflict(now, movesOfVisit(store, seen.id, seen.version).reverse());
    const { card, ...fields } = changes;
    const after = { ...now, ...fields };
    store.sqlite
      .prepare(
        `UPDATE visit SET plan_visit_id = @planVisitId, unit_number = @unitNumber, site = @site, place = @place,
         outside_shop = @outsideShop, bay = @bay, technician = @technician, on_day = @on, last_day = @lastDay,
         start_minute = @startMinute, end_minute = @endMinute, starts_at = @startsAt, ends_at = @endsAt, jobs = @jobs,
         state = @state, planned_hours = @plannedHours, planned_cents = @plannedCents, actual_hours = @actualHours,
         actual_cents = @actualCents, batch_id = @batch, version = version + 1, card = coalesce(@card, card)
         WHERE id = @id`,
      )
      .run({
        ...columnValues(after),
        id: seen.id,
        card: card === undefined || card === null ? null : JSON.stringify(card),
      });
    noteMove(
      store,
      seen.id,
      now.version + 1,
      { from: now.state, to: after.state },
      move,
      JSON.stringify(columnValues(now)),
    );
    return findVisit(store, seen.id) as Visit;
  })();
}
