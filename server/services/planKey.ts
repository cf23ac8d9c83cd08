import { createHash } from 'node:crypto';
import type { FormerPlace } from '../../models/decisions/shop/shopInputs.ts';
import type { PlanAnswer, PlanQuery } from '../../models/schema/planEndpoints.ts';
import type { Context } from '../context.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { revisionOf, storeNote } from '../store/settings.ts';
import { shopRecordStand } from '../store/shopResources.ts';
import { listVisits } from '../store/visits.ts';

/** Someone else changed the plan first; says what. */
export class PlanChanged extends Error {}

export const lockNote = 'plan_locks';
export const changeNote = 'plan_last_change';

/** Places that visits were locked at. */
export async function locksOf(store: Store): Promise<FormerPlace[]> {
  return JSON.parse((await storeNote(store, lockNote)) ?? '[]') as FormerPlace[];
}

/** What is asked, from the store's day where no first day is named. */
export async function wholeQuery(
  context: Context,
  store: Store,
  asked: PlanQuery,
): Promise<Required<PlanQuery>> {
  return { from: asked.from ?? (await context.asOf(store)), weeks: asked.weeks };
}

/** The key under which a plan holds: records, day, span, build, and every visit that is locked or booked. */
export async function keyOf(context: Context, store: Store, query: Required<PlanQuery>): Promise<string> {
  const held = createHash('sha256')
    .update(JSON.stringify([await locksOf(store), listVisits(store).map(({ id, version }) => [id, version])]))
    .digest('hex');
  return [
    'plan',
    store.file,
    await revisionOf(store),
    shopRecordStand(store),
    await context.asOf(store),
    query.from,
    query.weeks,
    held,
    context.paths.web,
  ].join('|');
}

/** The stand that a reader of a plan is told. */
export const standText = (key: string): string => createHash('sha256').update(key).digest('hex').slice(0, 16);

/** The plan of a key with what the page needs beside it, where it was worked out before. */
export function keptPlan(store: Store, key: string): PlanAnswer | null {
  const kept = findKeptResult(store, key);
  return kept === null ? null : (JSON.parse(kept) as PlanAnswer);
}

/** Keeps a plan under its key. */
export function keepPlan(context: Context, store: Store, key: string, answer: PlanAnswer): PlanAnswer {
  keepResult(store, key, JSON.stringify(answer), context.now());
  return answer;
}

/**
 * Checks that the plan is still the one that a writer saw.
 * @param seen the stand that the writer saw; left out: any
 * @throws PlanChanged when it is another now
 */
export async function checkSeen(store: Store, key: string, seen: string | undefined): Promise<void> {
  if (seen === undefined || seen === standText(key)) return;
  const last = await storeNote(store, changeNote);
  throw new PlanChanged(
    `The plan was changed in the meantime${last === null ? '' : `; the last change: ${last}`}. Look at it again, then repeat your change.`,
  );
}
