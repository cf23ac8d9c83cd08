import { putOffRisk } from '../../models/cards/putOffRisk.ts';
import { checkVisitStep, type FieldFault } from '../../models/cards/visitMoves.ts';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { visitStateWords, type Visit, type VisitRequest, type VisitStep } from '../../models/schema/visit.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { addVisit, changeVisit } from '../store/visits.ts';
import { unitNow, unitViewOf } from './unitNow.ts';

const noted = {
  reason: null,
  approver: null,
  manager: null,
  newDate: null,
  risk: null,
} as const;

/** Asks a unit in. @returns null when there is no such unit in service */
export async function askVisit(context: Context, store: Store, request: VisitRequest): Promise<Visit | null> {
  const view = await unitViewOf(context, store, request.unitNumber);
  if (view === null) return null;
  const { unit } = view.history;
  return addVisit(
    store,
    {
      planVisitId: null,
      unitNumber: unit.unitNumber,
      site: request.site ?? unit.site,
      place: 'bay',
      outsideShop: null,
      bay: request.bay,
      technician: request.technician,
      on: request.on,
      lastDay: request.on,
      startMinute: null,
      endMinute: null,
      startsAt: null,
      endsAt: null,
      jobs: [...new Set(request.jobs)],
      state: request.state,
      plannedHours: null,
      plannedCents: null,
      actualHours: null,
      actualCents: null,
      batch: null,
    },
    {
      ...noted,
      reason: request.reason === '' ? null : request.reason,
      at: context.now(),
      by: request.by,
      words: `${visitStateWords[request.state]} for ${request.on}`,
    },
  );
}

/** What putting a visit off until a day adds, in words. */
export async function riskOfPuttingOff(
  context: Context,
  store: Store,
  visit: Visit,
  to: string,
): Promise<string> {
  const own = await unitNow(context, store, visit.unitNumber);
  if (own === null) return 'This unit is not in service on that day; what waiting adds is not known.';
  const asOf = await context.asOf(store);
  const from = visit.on < asOf ? asOf : visit.on;
  return putOffRisk(own.assessment, own.learned.horizonDays, from, to);
}

/**
 * Moves a visit on. Putting off moves its days and keeps reason, approver and the added risk.
 * @throws VisitConflict when someone changed it before
 */
export async function stepVisit(
  context: Context,
  store: Store,
  visit: Visit,
  step: VisitStep,
): Promise<{ visit: Visit } | { faults: readonly FieldFault[] }> {
  const faults = checkVisitStep(visit, step, await context.asOf(store));
  if (faults.length > 0 && visit.version === step.version) return { faults };
  const move = { ...noted, at: context.now(), by: step.by };
  const seen = { id: visit.id, version: step.version };
  if (step.to !== 'put_off' || step.newDate === null)
    return {
      visit: changeVisit(
        store,
        seen,
        { state: step.to },
        { ...move, reason: step.reason, words: visitStateWords[step.to] },
      ),
    };
  const risk = await riskOfPuttingOff(context, store, visit, step.newDate);
  const shift = dayFromIso(step.newDate) - dayFromIso(visit.on);
  return {
    visit: changeVisit(
      store,
      seen,
      {
        state: 'put_off',
        on: step.newDate,
        lastDay: isoFromDay(dayFromIso(visit.lastDay) + shift),
        startsAt: null,
        endsAt: null,
      },
      {
        ...move,
        reason: step.reason,
        approver: step.approver,
        manager: step.manager,
        newDate: step.newDate,
        risk,
        words: `put off from ${visit.on} to ${step.newDate}: ${step.reason}`,
      },
    ),
  };
}
